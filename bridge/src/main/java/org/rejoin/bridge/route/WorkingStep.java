package org.rejoin.bridge.route;

/**
 * One line of the working.
 *
 * @param what is worked out
 * @param formula in the symbols of the trade
 * @param values put in, and the result
 */
public record WorkingStep(String what, String formula, String values) {}
