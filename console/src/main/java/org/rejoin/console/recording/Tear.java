package org.rejoin.console.recording;

/**
 * The place at which a capture could be read no further.
 *
 * @param offset octets from the start of the file that are whole, 24 or more; the first bad one follows
 * @param text one line: where, what stands there and what became of the rest
 */
public record Tear(long offset, String text) {}
