package org.rejoin.console.book;

/**
 * Somebody who flies: in the roster.
 *
 * @param id eight hexadecimal digits, drawn by chance; what leaves the machine instead of the name
 * @param name as typed, may be a nickname; unique, whatever the case
 */
public record Pilot(String id, String name) {}
