package org.rejoin.console.truth;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.console.practice.DrydenGusts;
import org.rejoin.console.practice.PracticeAircraft;
import org.rejoin.console.practice.WindProfile;
import org.rejoin.console.truth.TrueLine.Offset;
import org.rejoin.console.truth.TrueLine.Place;

/**
 * A flight as it truly went, 20 times a second.
 *
 * @param task flown
 * @param states the aircraft, one each twentieth of a second from 0
 * @param captureS when the pilot set out to turn onto the course; NaN if never
 * @param turnS when the pilot set out to turn at the end of the leg; NaN if never
 */
record Flown(Task task, List<PracticeAircraft> states, double captureS, double turnS) {

    static final int HZ = 20;

    /** Goes on this long once on the second leg, seconds: past the end of the graded part. */
    private static final double SETTLED_S = 50;

    static Flown by(Task task, Pilot.Kind kind, Mistake mistake, long seed) {
        Pilot pilot = new Pilot(task, kind, mistake, seed);
        Setting setting = task.setting();
        WindProfile winds = task.winds();
        DrydenGusts gusts = new DrydenGusts(new SplittableRandom(seed * 31 + 7), setting.gustsKt());
        PracticeAircraft now = new PracticeAircraft(
                0,
                new Position(
                        task.start().latitudeDeg(), Task.wrapped(task.start().longitudeDeg())),
                Task.ALTITUDE_FT,
                new TrueDirection(task.headingBeforeDeg()),
                0,
                0,
                setting.speedKt(),
                winds.at(Task.ALTITUDE_FT),
                PracticeAircraft.Gusted.NOT);
        List<PracticeAircraft> states = new ArrayList<>(20_000);
        double settledS = Double.NaN;
        double along = 0;
        double longest = Task.CLEARED_S
                + setting.minutesToLine() * 60
                + 3600 * (setting.legNm() + 8) / setting.speedKt() * 2.5
                + 400;
        double neverS = Task.CLEARED_S + setting.minutesToLine() * 60 + 360;
        for (int step = 0; now.timeS() < longest; step++) {
            states.add(now);
            if (mistake.is(Mistake.Kind.NEVER_TURNED) && now.timeS() > neverS) {
                break;
            }
            if (step % 20 == 0 && !Double.isNaN(pilot.turnS())) {
                Offset next = task.second()
                        .offset(
                                new Place(
                                        now.position().latitudeDeg(),
                                        now.position().longitudeDeg()),
                                along);
                along = next.alongNm();
                boolean on = Math.abs(next.crossNm()) < 0.4
                        && Math.abs(TrueLine.turn(now.ground().track().deg() - next.courseDeg())) < 9
                        && next.alongNm() > 0;
                settledS = on ? Double.isNaN(settledS) ? now.timeS() : settledS : Double.NaN;
                if (now.timeS() - settledS > SETTLED_S) {
                    break;
                }
            }
            PracticeAircraft.Controls wanted = pilot.fly(now);
            DrydenGusts.Gust gust = gusts.next(1.0 / HZ, now.trueAirspeedKt(), now.altitudeFt());
            now = now.after(1.0 / HZ, wanted, winds::at, gust);
        }
        return new Flown(task, states, pilot.captureS(), pilot.turnS());
    }

    double endS() {
        return states.get(states.size() - 1).timeS();
    }

    /** The flight up to a time: what is there when the instructor ends it, or the recording stops. */
    Flown until(double timeS) {
        return new Flown(
                task, states.subList(0, Math.min(states.size(), (int) Math.round(timeS * HZ) + 1)), captureS, turnS);
    }
}
