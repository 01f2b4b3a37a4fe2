package org.rejoin.console.flight;

/**
 * What an aircraft is called. Both are made from what a stranger may have sent, and hold nothing that a terminal, a page or a
 * file system could take for anything but a name.
 *
 * @param label for people, unique within a flight: letters, digits, single spaces and {@code . : _ - [ ]}
 * @param directory for files, unique whatever the case: letters {@code a-z A-Z}, digits, {@code _ -}; begins with a letter
 *     or digit
 */
public record AircraftName(String label, String directory) {}
