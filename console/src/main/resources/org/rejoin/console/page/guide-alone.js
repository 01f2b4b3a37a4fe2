// The guide beside a single flight's page: a way back and the look; no views to lead to.
import { themeSwitch } from '/theme.js';

const head = document.querySelector('header');
const back = document.createElement('a');
back.href = '/';
back.className = 'button';
back.textContent = 'Back to the flight';
const look = document.createElement('button');
look.type = 'button';
look.id = 'theme';
look.textContent = 'Light page';
head.append(back, look);
themeSwitch(look, () => {});
