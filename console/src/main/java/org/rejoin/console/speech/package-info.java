/**
 * A clearance said and a readback heard, on this machine alone. Start at {@link org.rejoin.console.speech.Speaker} for what is
 * said. Words, sounds and grammars are pure; the one class that runs a program is
 * {@link org.rejoin.console.speech.Child}. No sound leaves the machine.
 */
@NullMarked
package org.rejoin.console.speech;

import org.jspecify.annotations.NullMarked;
