/**
 * One flight, told once: the record, its entries, and the table of what can happen. Pure data. Start at
 * {@link org.rejoin.bridge.flight.FlightRecord}. May use {@code protocol}, {@code geo}, {@code clearance} and {@code route}.
 */
@NullMarked
package org.rejoin.bridge.flight;

import org.jspecify.annotations.NullMarked;
