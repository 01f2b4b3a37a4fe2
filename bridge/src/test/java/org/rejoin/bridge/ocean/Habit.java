package org.rejoin.bridge.ocean;

import org.rejoin.bridge.ocean.Ocean.Leg;

/** Ways to fly one clearance, each but the first with one mistake that is large enough to be a fault at any sample rate. */
public enum Habit {
    SOUND,
    LATE,
    FLOWN_THROUGH,
    EARLY,
    RECIPROCAL,
    WRONG_TURN,
    SEQUENCE_MISSED,
    WEAVING,
    OFF_HEADING,
    ROUTE_LEFT;

    /** Flown from the clearance to beyond the turn at the fix. */
    public Leg leg() {
        Leg leg = new Leg(this == LATE ? 60 : 50, -1, 130, Ocean.CALM, 7);
        double radius = leg.flight.radiusNm();
        switch (this) {
            case LATE -> {
                leg.toCourse(7.3).turnOn().flight.seconds(13);
                leg.sidestep().asCleared();
            }
            case FLOWN_THROUGH -> {
                leg.toCourse(25.4).turnOn().flight.seconds(13);
                leg.sidestep().asCleared();
            }
            case EARLY -> {
                leg.flight.miles(7 - radius * Math.tan(Math.toRadians(25)) - 1.6);
                leg.turnOn().flight.seconds(25.3);
                leg.sidestep().asCleared();
            }
            case RECIPROCAL -> {
                leg.flight.miles(7 - radius / Math.tan(Math.toRadians(25)));
                leg.flight.turn(130).seconds(24.7).turn(180);
                leg.turnOn().flight.seconds(13);
                leg.sidestep().asCleared();
            }
            case WRONG_TURN -> {
                leg.toLead().turnOn().toFixLessNm(0.31).flight.turn(-71.7);
                leg.ontoAirway();
            }
            case SEQUENCE_MISSED -> {
                leg.toLead().turnOn().toFixLessNm(0).flight.seconds(41.3);
                leg.ontoAirway();
            }
            case WEAVING -> {
                leg.toLead().turnOn().flight.seconds(15.3).turn(13).seconds(25);
                for (int i = 0; i < 4; i++) {
                    leg.flight.turn(i % 2 == 0 ? -26 : 26).seconds(i == 3 ? 25 : 50);
                }
                leg.turnOn().sidestep().asCleared();
            }
            case OFF_HEADING -> {
                leg.flight.seconds(20.2).turn(-16).seconds(25.1).turn(16);
                double toLine = Math.abs(leg.crossNm()) / Math.sin(Math.toRadians(50));
                leg.flight.miles(toLine - radius * Math.tan(Math.toRadians(25)));
                leg.turnOn().asCleared();
            }
            case ROUTE_LEFT -> {
                leg.toLead()
                        .turnOn()
                        .toFixLessNm(9.3)
                        .flight
                        .turn(40)
                        .seconds(66.3)
                        .turn(-40);
                leg.sidestep().asCleared();
            }
            case SOUND -> leg.toLead().turnOn().asCleared();
        }
        return leg;
    }
}
