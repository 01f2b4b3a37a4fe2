package org.rejoin.console.truth;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;

/**
 * One flight of the campaign: a setting drawn from the envelope, a pilot, a mistake.
 *
 * @param number seeds everything
 * @param setting of the task
 * @param pilot who flies
 * @param mistake made
 */
record Flight(int number, Setting setting, Pilot.Kind pilot, Mistake mistake) {

    /** As many flights as asked, in every combination of shape, pilot and mistake by turns. */
    static List<Flight> drawn(int count) {
        List<Flight> flights = new ArrayList<>();
        List<Mistake.Kind> kinds = Mistake.Kind.DRAWN;
        Setting.Shape[] shapes = Setting.Shape.values();
        Pilot.Kind[] pilots = Pilot.Kind.values();
        for (int i = 0; i < count; i++) {
            SplittableRandom random = new SplittableRandom(1000 + i);
            Setting setting = Setting.drawn(shapes[i % 3], random);
            // Every third flight has no mistake.
            Mistake.Kind kind = i % 3 == (i / 9) % 3 ? Mistake.Kind.NONE : kinds.get(1 + (i / 2) % (kinds.size() - 1));
            Pilot.Kind pilot = pilots[(i / 3) % 3];
            flights.add(new Flight(i, roomFor(setting, kind), pilot, new Mistake(kind, size(kind, random))));
        }
        return flights;
    }

    /** A mistake that takes time on the leg needs a leg to make it on. */
    private static Setting roomFor(Setting setting, Mistake.Kind kind) {
        double extraS = switch (kind) {
            case WEAVING -> 300;
            case RECIPROCAL, CARRIED_PAST -> 260;
            case TURN_DELAYED, SHORT_FOR, SHORT_BY -> 200;
            case LEFT_EARLY, OFFSET -> 150;
            default -> 0;
        };
        double nm = setting.legNm() + (setting.speedKt() + 30) / 3600 * extraS;
        return setting.withLeg(nm);
    }

    private static double size(Mistake.Kind kind, SplittableRandom random) {
        double share = random.nextDouble();
        return switch (kind) {
            case NONE, NEVER_TURNED, FIX_EARLY, OTHER_RADIAL, WIND_IGNORED, GOES_BESIDE -> 0;
            case TURN_DELAYED -> 4 + 40 * share;
            case CARRIED_PAST -> 0.05 + 1.2 * share;
            case SHORT_FOR -> 5 + 50 * share;
            case SHORT_BY -> 0.6 + 1.2 * share;
            case RECIPROCAL -> 5 + 50 * share;
            case HEADING_OFF -> (random.nextBoolean() ? 1 : -1) * (3 + 15 * share);
            case WEAVING -> 0.05 + 0.3 * share;
            case OFFSET -> 0.2 + 1.6 * share;
            case PAST_FIX -> 0.3 + 3 * share;
            case WRONG_TURN -> 20 + 30 * share;
            case REACTION -> 5 + 50 * share;
            case ALTITUDE_OFF, BUMPS -> (random.nextBoolean() ? 1 : -1) * (40 + 260 * share);
            case LEFT_EARLY -> 2 + 4 * share;
        };
    }

    Flown fly() {
        return Flown.by(Task.of(setting), pilot, mistake, number);
    }

    @Override
    public String toString() {
        return String.format(
                Locale.ROOT,
                "#%d %s %s %.0f kt, %.0f deg, wind %.0f kt, gusts %.0f, leg %.1f NM, turn %.0f, lat %.0f, %s",
                number,
                setting.shape(),
                pilot,
                setting.speedKt(),
                setting.interceptDeg(),
                setting.windKt(),
                setting.gustsKt(),
                setting.legNm(),
                setting.turnDeg(),
                setting.latitudeDeg(),
                mistake);
    }
}
