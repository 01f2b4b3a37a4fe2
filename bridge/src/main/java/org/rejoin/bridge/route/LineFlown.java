package org.rejoin.bridge.route;

import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;

/**
 * Where the flight is when a line has been flown.
 *
 * @param onAirway whether the airway is joined there, and so all of the route is known
 */
record LineFlown(Position position, TrueDirection track, boolean onAirway) {}
