package org.rejoin.console.page;

/**
 * One limit that is not held at this moment.
 *
 * @param what in a few words, as "290 ft low"
 * @param sinceS from when, seconds of the flight
 */
public record LimitOff(String what, double sinceS) {}
