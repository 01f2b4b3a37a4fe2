// The guide in the practice room: its head is that of every view. The text is in the page itself.
import { showBar } from '/pieces.js';

await showBar('Guide');
