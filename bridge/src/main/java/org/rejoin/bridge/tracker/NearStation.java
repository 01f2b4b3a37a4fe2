package org.rejoin.bridge.tracker;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.geo.Declination;

/**
 * A station whose radials (or bearings) may be mistaken for those of the one in the clearance.
 *
 * @param station of the chart, one that gives radials or bearings
 * @param reference of its zero radial: its declination, or for an NDB today's variation there
 */
public record NearStation(Station station, Declination reference) {}
