package org.rejoin.bridge.geo;

/**
 * One line of the table of external checks: a quantity of ours against values published by others.
 *
 * @param topic heading under which the line stands
 * @param what the quantity that was compared
 * @param source document, edition, table
 * @param cases number of published cases that were compared
 * @param tolerance largest deviation allowed, in {@code unit}
 * @param unit of tolerance and deviation
 * @param largest largest deviation found, in {@code unit}
 * @param worst the case that deviates most, for messages
 */
public record ExternalCheck(
        String topic,
        String what,
        String source,
        int cases,
        double tolerance,
        String unit,
        double largest,
        String worst) {}
