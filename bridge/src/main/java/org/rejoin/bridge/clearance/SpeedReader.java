package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.SpeedContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.SpeedUntilContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ThenSpeedContext;

import org.jspecify.annotations.Nullable;

/** Speeds: which, by how much, until where (FAA Order JO 7110.65, 5-7-2, 5-7-4; ICAO Doc 4444, 12.4.1.6). */
record SpeedReader(Source source, PlaceReader places, WhenReader whens, Quantities quantities) {

    /** A change of speed is smaller than the slowest speed that is assigned, knots. */
    private static final int MOST_CHANGE_KT = 40;

    /** Slower nobody is told to fly without more words, knots; common practice, no source. */
    private static final double LEAST_LIKELY_KT = 80;

    /** The speed, and where it ends. */
    List<Instruction> speed(SpeedContext spoken) throws ClearanceException {
        List<Instruction> read = new ArrayList<>();
        read.add(assigned(spoken));
        until(spoken.speedUntil(), read);
        for (ThenSpeedContext then : spoken.thenSpeed()) {
            read.add(new Instruction.MaintainSpeed(
                    quantities.speedKt(then.number()), Quantities.limit(then.speedBound())));
            until(then.speedUntil(), read);
        }
        return read;
    }

    private void until(@Nullable SpeedUntilContext end, List<Instruction> read) throws ClearanceException {
        if (end != null) {
            read.add(new Noted.Until(Noted.Until.What.SPEED, ends(end)));
        }
    }

    private When ends(SpeedUntilContext end) throws ClearanceException {
        if (end.established() != null) {
            return whens.established(end.onLine());
        }
        return end.ADVISED() != null
                ? new When.Advised()
                : whens.one(end, end.near(), end.lineEnd(), null, end.number());
    }

    private Instruction assigned(SpeedContext spoken) throws ClearanceException {
        if (spoken.NORMAL() != null || spoken.PUBLISHED() != null) {
            return new Instruction.ResumeNormalSpeed();
        }
        if (spoken.PRESENT() != null) {
            return new Instruction.MaintainPresentSpeed();
        }
        if (spoken.number() == null) {
            return new Noted.ExtremeSpeed(extreme(spoken));
        }
        if (isChange(spoken)) {
            int by = quantities.number(spoken.number()).value();
            if (by < 1 || by > MOST_CHANGE_KT) {
                throw source.notUnderstood(spoken, "a speed is changed by 1 to " + MOST_CHANGE_KT + " knots");
            }
            return new Noted.SpeedChange(spoken.REDUCE() != null ? -by : by);
        }
        double knots = quantities.speedKt(spoken.number());
        if (mayBeChange(spoken) && knots < LEAST_LIKELY_KT) {
            throw source.notUnderstood(spoken, "to that speed, or by so many knots? say \"to\" or \"by\"");
        }
        if (spoken.EXCEED() != null) {
            return new Instruction.MaintainSpeed(knots, Instruction.MaintainSpeed.Limit.OR_LESS);
        }
        return new Instruction.MaintainSpeed(knots, Quantities.limit(spoken.speedBound()));
    }

    /** "Reduce speed 20 knots" is by 20 (FAA Order JO 7110.65, 5-7-2); so few knots are no speed to fly. */
    private boolean isChange(SpeedContext spoken) throws ClearanceException {
        return spoken.BY() != null
                || (mayBeChange(spoken) && quantities.number(spoken.number()).value() <= MOST_CHANGE_KT);
    }

    /** "Reduce 60 knots": neither to nor by is said. */
    private static boolean mayBeChange(SpeedContext spoken) {
        return (spoken.REDUCE() != null || spoken.INCREASE() != null)
                && spoken.KNOTS() != null
                && spoken.TO() == null
                && spoken.speedBound() == null;
    }

    private boolean extreme(SpeedContext spoken) throws ClearanceException {
        List<String> words = spoken.EXTREME().stream()
                .map(word -> word.getText().toLowerCase(Locale.ROOT))
                .toList();
        boolean fastest = words.contains("maximum") || words.contains("fastest");
        boolean slowest = words.contains("minimum")
                || words.contains("slowest")
                || !spoken.LEAST().isEmpty();
        if (fastest == slowest) {
            throw source.notUnderstood(spoken, "the greatest speed or the least?");
        }
        return fastest;
    }
}
