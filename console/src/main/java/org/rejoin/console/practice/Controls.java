package org.rejoin.console.practice;

/**
 * What the pilot asks of the aircraft.
 *
 * @param bankDeg right positive; limited to {@link PracticeAircraft#STEEPEST_BANK_DEG}
 * @param altitudeFt to climb or descend to, feet above mean sea level
 * @param trueAirspeedKt to fly, knots
 */
public record Controls(double bankDeg, double altitudeFt, double trueAirspeedKt) {}
