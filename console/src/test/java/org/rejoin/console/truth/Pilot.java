package org.rejoin.console.truth;

import java.util.SplittableRandom;

import org.rejoin.console.practice.PracticeAircraft;
import org.rejoin.console.truth.TrueLine.Offset;
import org.rejoin.console.truth.TrueLine.Place;

/**
 * Flies a task with one mistake, in one of three ways: as a route-following autopilot with turn anticipation, as a coupler
 * that captures by deviation and closure, or as a human who reacts late, looks now and then, lapses, lets small errors be and
 * turns a little too much or too little. Says what it set out to do and when, for the truth.
 */
final class Pilot {

    /** Who flies. */
    enum Kind {
        AUTOPILOT,
        COUPLER,
        HUMAN
    }

    private enum Phase {
        BEFORE,
        HEADING,
        RECIPROCAL,
        SHORT,
        FIRST,
        AWAY,
        WRONG,
        SECOND
    }

    private static final double ROLL_S = 2;
    private static final double CUT_DEG = 45;
    private static final double FLAT_CUT_DEG = 20;

    /** So far off the drift is seen. */
    private static final double DRIFTED_NM = 1.2;

    /** Time for three swings of the widest weave, so that a sweep changes their size and not their number. */
    private static final double WEAVING_S = 300;

    private final Task task;
    private final Kind kind;
    private final Mistake mistake;
    private final SplittableRandom random;
    private final TrueLine reciprocal;
    private final double gain;
    private final double leadErrorS;
    private final double altitudeBiasFt;

    private Phase phase = Phase.BEFORE;
    private double captureS = Double.NaN;
    private double turnS = Double.NaN;
    private double side;
    private double lookS;
    private double heldBankDeg;
    private double dueS = Double.NaN;
    private double phaseS;
    private double onCourseS = Double.NaN;
    private double weaveSide = 1;
    private double guessNm = Double.NaN;
    private double secondNm;
    private double mostDeg = CUT_DEG;
    private boolean corrects;

    Pilot(Task task, Kind kind, Mistake mistake, long seed) {
        this.task = task;
        this.kind = kind;
        this.mistake = mistake;
        this.random = new SplittableRandom(seed);
        this.reciprocal = task.first().reversed();
        boolean human = kind == Kind.HUMAN;
        this.gain = human ? 0.8 + 0.45 * random.nextDouble() : 1;
        this.leadErrorS = human ? 5 * (random.nextDouble() - 0.5) : 0;
        this.altitudeBiasFt = human ? 60 * (random.nextDouble() - 0.5) : 0;
    }

    /** When it set out to turn onto the course; NaN if never. */
    double captureS() {
        return captureS;
    }

    /** When it set out to turn at the end of the leg, or off it; NaN if never. */
    double turnS() {
        return turnS;
    }

    PracticeAircraft.Controls fly(PracticeAircraft now) {
        double time = now.timeS();
        if (time >= lookS) {
            heldBankDeg = bank(now);
            lookS = time + untilNextLookS();
        }
        double altitude = Task.ALTITUDE_FT + altitudeBiasFt + (offAltitude(time) ? mistake.size() : 0);
        return new PracticeAircraft.Controls(
                heldBankDeg, altitude, task.setting().speedKt());
    }

    private boolean offAltitude(double time) {
        double since = time - Task.CLEARED_S;
        return switch (mistake.kind()) {
            case ALTITUDE_OFF -> since > 30;
            // Twenty seconds there, with the way down and up.
            case BUMPS -> (since > 60 && since < 88) || (since > 200 && since < 228);
            default -> false;
        };
    }

    private double untilNextLookS() {
        if (kind != Kind.HUMAN) {
            return 0.2;
        }
        // Steady on a heading or a line the eye goes elsewhere; in a turn it stays.
        boolean steady = Math.abs(heldBankDeg) < 5;
        boolean lapse = steady && random.nextInt(40) == 0;
        return lapse
                ? 6 + 6 * random.nextDouble()
                : steady ? 1 + 1.5 * random.nextDouble() : 0.5 + 0.5 * random.nextDouble();
    }

    private double reactionS() {
        if (mistake.is(Mistake.Kind.REACTION)) {
            return mistake.size();
        }
        return kind == Kind.HUMAN ? 4 + 3 * gain : 3;
    }

    private double bank(PracticeAircraft now) {
        Place place = new Place(now.position().latitudeDeg(), now.position().longitudeDeg());
        if (Double.isNaN(guessNm)) {
            guessNm = task.first().lengthNm() - task.setting().legNm();
            side = Math.signum(task.first().offset(place, guessNm).crossNm());
        }
        double time = now.timeS();
        if (phase == Phase.BEFORE) {
            if (time < Task.CLEARED_S + reactionS()) {
                return toHeading(now, task.headingBeforeDeg());
            }
            phase = Phase.HEADING;
        }
        if (phase == Phase.SECOND) {
            Offset next = task.second().offset(place, secondNm);
            secondNm = next.alongNm();
            return toLine(now, next, 0, mistake.is(Mistake.Kind.FIX_EARLY) ? FLAT_CUT_DEG : CUT_DEG);
        }
        Offset at = task.first().offset(place, guessNm);
        guessNm = at.alongNm();
        return switch (phase) {
            case HEADING -> heading(now, at);
            case RECIPROCAL -> reciprocal(now, place, at);
            case SHORT -> parallel(now, at);
            case FIRST -> first(now, at);
            case AWAY, WRONG -> away(now, place);
            case BEFORE, SECOND -> throw new IllegalStateException();
        };
    }

    private void go(Phase next, double time) {
        phase = next;
        phaseS = time;
    }

    private double heading(PracticeAircraft now, Offset at) {
        double held = task.assignedDeg() + (mistake.is(Mistake.Kind.HEADING_OFF) ? mistake.size() : 0);
        if (!mistake.is(Mistake.Kind.NEVER_TURNED) && captures(now, at)) {
            captureS = now.timeS();
            mostDeg = Math.max(CUT_DEG, Math.abs(error(now, at)));
            go(
                    switch (mistake.kind()) {
                        case RECIPROCAL -> Phase.RECIPROCAL;
                        case SHORT_FOR, SHORT_BY -> Phase.SHORT;
                        default -> Phase.FIRST;
                    },
                    now.timeS());
            return bank(now);
        }
        return toHeading(now, held);
    }

    /** Whether to begin the turn onto the course now. */
    private boolean captures(PracticeAircraft now, Offset at) {
        double near = side * at.crossNm();
        double error = error(now, at);
        double closing = -side * Math.sin(Math.toRadians(error)) * now.ground().groundSpeedKt() / 3600;
        double angle = Math.abs(error);
        // The turn to the heading comes first: not while the nose is still far from it.
        boolean headingFlown = Math.abs(TrueLine.turn(now.heading().deg() - task.assignedDeg())) < 15
                || mistake.is(Mistake.Kind.HEADING_OFF)
                || near < 0;
        double radius = radiusNm(now);
        double carry = switch (mistake.kind()) {
            case RECIPROCAL -> radius * (1 + Math.cos(Math.toRadians(angle)));
            case SHORT_FOR -> 1.4 + radius * (1 - Math.cos(Math.toRadians(angle)));
            case SHORT_BY -> mistake.size() + radius * (1 - Math.cos(Math.toRadians(angle)));
            case CARRIED_PAST -> -mistake.size();
            case OFFSET -> mistake.size() + radius * (1 - Math.cos(Math.toRadians(angle)));
            case OTHER_RADIAL -> besideNm(at) + radius * (1 - Math.cos(Math.toRadians(angle)));
            default -> (kind == Kind.COUPLER ? 0.8 : 1) * radius * (1 - Math.cos(Math.toRadians(angle)));
        };
        boolean meant = mistake.is(Mistake.Kind.CARRIED_PAST);
        double lead = meant ? 0 : closing * (kind == Kind.COUPLER ? 3 : ROLL_S + leadErrorS);
        boolean now0 = headingFlown && (closing > 0 || near < 0) && near <= carry + lead;
        if (!now0 || !mistake.is(Mistake.Kind.TURN_DELAYED)) {
            return now0;
        }
        dueS = Double.isNaN(dueS) ? now.timeS() + mistake.size() : dueS;
        return now.timeS() >= dueS;
    }

    private double reciprocal(PracticeAircraft now, Place place, Offset at) {
        Offset back = reciprocal.offset(place, reciprocal.lengthNm() - at.alongNm());
        boolean on = Math.abs(back.crossNm()) < 0.95 && Math.abs(error(now, back)) < 20;
        if (on && Double.isNaN(onCourseS)) {
            onCourseS = now.timeS();
        }
        if (now.timeS() - onCourseS > mistake.size()) {
            onCourseS = Double.NaN;
            go(Phase.FIRST, now.timeS());
        }
        return toLine(now, back, 0, CUT_DEG);
    }

    private double parallel(PracticeAircraft now, Offset at) {
        double error = error(now, at);
        if (Math.abs(error) < 5 && Double.isNaN(onCourseS)) {
            onCourseS = now.timeS();
        }
        double time = mistake.is(Mistake.Kind.SHORT_FOR) ? mistake.size() : 40;
        if (now.timeS() - onCourseS > time) {
            onCourseS = Double.NaN;
            mostDeg = 30;
            go(Phase.FIRST, now.timeS());
        }
        return toTrack(now, at.courseDeg());
    }

    private double first(PracticeAircraft now, Offset at) {
        if (Double.isNaN(onCourseS) && Math.abs(at.crossNm()) < 0.15 && Math.abs(error(now, at)) < 8) {
            onCourseS = now.timeS();
            mostDeg = CUT_DEG;
        }
        double togo = task.first().lengthNm() - at.alongNm();
        if (togo <= turnLeadNm(now) && Math.abs(error(now, at)) < 100) {
            turnS = now.timeS();
            secondNm = 0;
            go(
                    mistake.is(Mistake.Kind.WRONG_TURN)
                            ? Phase.WRONG
                            : mistake.is(Mistake.Kind.LEFT_EARLY) ? Phase.AWAY : Phase.SECOND,
                    now.timeS());
            return bank(now);
        }
        if (mistake.is(Mistake.Kind.WEAVING) && now.timeS() - onCourseS < WEAVING_S) {
            if (Math.abs(at.crossNm()) > mistake.size()) {
                weaveSide = Math.signum(at.crossNm());
            }
            return toTrack(now, at.courseDeg() - weaveSide * Math.min(22, 4 + 110 * mistake.size()));
        }
        if (mistake.is(Mistake.Kind.WIND_IGNORED) && !corrects) {
            corrects = Math.abs(at.crossNm()) > DRIFTED_NM;
            return toHeading(now, at.courseDeg());
        }
        return toLine(now, at, side * besideNm(at), mostDeg);
    }

    /** How far beside the line, on the side it is come to from, the aircraft is to be tracked. */
    private double besideNm(Offset at) {
        return switch (mistake.kind()) {
            case OFFSET, GOES_BESIDE -> mistake.size();
            // The line begins at its station.
            case OTHER_RADIAL -> at.alongNm() * Math.tan(Math.toRadians(mistake.size()));
            default -> 0;
        };
    }

    private double turnLeadNm(PracticeAircraft now) {
        double turn = Math.abs(task.setting().turnDeg());
        double lead = radiusNm(now) * Math.tan(Math.toRadians(Math.min(turn, 120)) / 2)
                + now.ground().groundSpeedKt() / 3600 * (ROLL_S + leadErrorS);
        return switch (mistake.kind()) {
            case PAST_FIX -> -mistake.size();
            case LEFT_EARLY -> lead + mistake.size();
            case FIX_EARLY -> lead + mistake.size() * now.ground().groundSpeedKt() / 3600;
            default -> lead;
        };
    }

    /** Off the leg before its end toward the next one, or the wrong way at the end. */
    private double away(PracticeAircraft now, Place place) {
        double turn = task.setting().turnDeg();
        double course = task.first().courseDeg(task.first().lengthNm());
        Offset next = task.second().offset(place, secondNm);
        secondNm = next.alongNm();
        if (phase == Phase.WRONG) {
            if (now.timeS() - phaseS > mistake.size()) {
                go(Phase.SECOND, now.timeS());
            }
            return toTrack(now, course - Math.signum(turn) * 55);
        }
        // Straight to a point farther down the next leg.
        if (Math.abs(next.crossNm()) < radiusNm(now) * 0.3 && next.alongNm() > 0) {
            go(Phase.SECOND, now.timeS());
        }
        Place aim = task.second().at(2.5 * mistake.size() + 3);
        return toTrack(now, place.azimuthDeg(aim));
    }

    private double radiusNm(PracticeAircraft now) {
        double rate = Math.toRadians(rateDegPerS(now));
        return now.ground().groundSpeedKt() / 3600 / rate;
    }

    /** Standard rate, or what 25 degrees of bank give. */
    private static double rateDegPerS(PracticeAircraft now) {
        double mps = now.trueAirspeedKt() * 1852 / 3600;
        return Math.min(3, Math.toDegrees(9.80665 * Math.tan(Math.toRadians(25)) / mps));
    }

    private static double error(PracticeAircraft now, Offset at) {
        return TrueLine.turn(now.ground().track().deg() - at.courseDeg());
    }

    private double toHeading(PracticeAircraft now, double deg) {
        return toTurn(now, TrueLine.turn(deg - now.heading().deg()));
    }

    private double toTrack(PracticeAircraft now, double deg) {
        return toTurn(now, TrueLine.turn(deg - now.ground().track().deg()));
    }

    private double toTurn(PracticeAircraft now, double turnDeg) {
        boolean let = kind == Kind.HUMAN && Math.abs(turnDeg) < 2 && Math.abs(now.bankDeg()) < 3;
        if (let) {
            return 0;
        }
        double most = rateDegPerS(now);
        double rate = Math.max(-most, Math.min(most, 0.3 * gain * turnDeg));
        double mps = now.trueAirspeedKt() * 1852 / 3600;
        return Math.toDegrees(Math.atan(Math.toRadians(rate) * mps / 9.80665));
    }

    private double toLine(PracticeAircraft now, Offset at, double besideNm, double most) {
        double speed = now.ground().groundSpeedKt() / 3600;
        double cross = at.crossNm() - besideNm + speed * Math.sin(Math.toRadians(error(now, at))) * ROLL_S;
        double far = Math.abs(cross);
        double wanted;
        if (kind == Kind.COUPLER) {
            wanted = Math.min(most, far / (speed * 25) * 57);
        } else {
            double share = far / (radiusNm(now) * 1.15);
            double arc = share >= 2 ? 180 : Math.toDegrees(Math.acos(1 - share));
            wanted = Math.min(most, Math.min(arc, far / (speed * 16) * 57));
            if (kind == Kind.HUMAN && far < 0.06 && Math.abs(error(now, at)) < 3) {
                wanted = 0;
            }
        }
        return toTrack(now, at.courseDeg() - Math.signum(cross) * wanted);
    }
}
