/**
 * Recordings: raw datagrams in a classic capture file, and what stands beside it. Reads torn tails up to the tear.
 *
 * <p>Start at {@link org.rejoin.console.recording.RecordingFolder}. {@link org.rejoin.console.recording.Recorder} writes
 * while the flight goes on, {@link org.rejoin.console.recording.Capture} reads it back, and captures made by any packet
 * tool too. What cannot be read or written is an IOException of one line.
 */
@NullMarked
package org.rejoin.console.recording;

import org.jspecify.annotations.NullMarked;
