package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction.Maintain;
import org.rejoin.bridge.clearance.Instruction.Maintain.Begin;
import org.rejoin.bridge.clearance.Instruction.Maintain.Vertical;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.BeginContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.LevelByContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.LevelContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.LevelVerbContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.RateContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ThenLevelContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.UntilContext;

import org.jspecify.annotations.Nullable;

/** Altitudes: which, until when, reached where, how fast (FAA Order JO 7110.65, 4-5-7; ICAO Doc 4444, 12.3.1.2). */
record LevelReader(
        Source source,
        PlaceReader places,
        LineReader lines,
        WhenReader whens,
        CrossReader crossings,
        Quantities quantities) {

    /** The altitude, and what is said with it. */
    List<Instruction> level(LevelContext spoken) throws ClearanceException {
        if (spoken.PRESENT() != null) {
            throw source.notUnderstood(spoken, "which it is is not said: say it in figures, \"maintain 6000\"");
        }
        if (spoken.DO() != null) {
            throw source.notUnderstood(
                    spoken,
                    "a limit beside the altitude is not followed here: say the altitude, or the fix to cross at it");
        }
        if (spoken.AT() != null || spoken.bound() != null || spoken.notBound() != null) {
            return bounded(spoken);
        }
        if (spoken.VIA() != null && spoken.radial() == null) {
            throw source.notUnderstood(
                    spoken,
                    "climb or descend via is said of a published procedure, which is not flown here: say join or via, and"
                            + " the altitude");
        }
        if (spoken.BLOCK() != null) {
            return List.of(block(spoken, vertical(spoken.levelVerb())));
        }
        if (spoken.BETWEEN() != null) {
            return List.of(block(spoken, spoken.CLIMB() == null ? Vertical.UNSAID : Vertical.CLIMB));
        }
        if (spoken.CRUISE() != null) {
            return List.of(new Noted.Cruise(
                    quantities.altitudeFt(spoken.altitude(0)), Quantities.isLevel(spoken.altitude(0))));
        }
        if (spoken.levelVerb() == null) {
            return interrupted(spoken);
        }
        return maintain(spoken);
    }

    /** "Maintain at or above 7000 until PRION, then 9000"; "maintain at or below 7000 until past PRION". */
    private List<Instruction> bounded(LevelContext spoken) throws ClearanceException {
        List<Instruction> read = new ArrayList<>();
        read.add(new Noted.Bounded(
                quantities.altitudeFt(spoken.altitude(0)),
                Quantities.isLevel(spoken.altitude(0)),
                spoken.LEAST() != null
                        ? Instruction.CrossAt.Bound.AT_OR_ABOVE
                        : CrossReader.bound(spoken.bound(), spoken.notBound())));
        if (!spoken.until().isEmpty()) {
            UntilContext until = spoken.until(0);
            read.add(new Noted.Until(
                    Noted.Until.What.ALTITUDE,
                    until.established() == null ? ends(until) : whens.established(until.onLine())));
        }
        then(spoken.thenLevel(), read);
        return read;
    }

    /** What follows an altitude that ends somewhere: "until established, then 10000". */
    private void then(List<ThenLevelContext> all, List<Instruction> read) throws ClearanceException {
        for (ThenLevelContext each : all) {
            boolean ends = read.stream()
                    .anyMatch(said -> said instanceof Noted.Until
                            || (said instanceof Maintain first && first.untilEstablished()));
            if (!ends) {
                throw source.notUnderstood(
                        each, "from where on? say \"until\" and a place before it, or \"after\" and a place");
            }
            boolean established = each.until() != null && each.until().established() != null;
            Maintain then = quantities.maintain(each.altitude());
            read.add(established ? then.untilItsCourse() : then);
            if (each.until() != null) {
                until(each.until(), read);
            }
        }
    }

    private Noted.Block block(LevelContext spoken, Vertical vertical) throws ClearanceException {
        double lowest = quantities.altitudeFt(spoken.altitude(0));
        double highest = quantities.altitudeFt(spoken.altitude(1));
        if (lowest >= highest) {
            throw source.notUnderstood(spoken, "a block goes from the lower altitude up to the higher one");
        }
        return new Noted.Block(
                lowest,
                Quantities.isLevel(spoken.altitude(0)),
                highest,
                Quantities.isLevel(spoken.altitude(1)),
                vertical);
    }

    /** "Descend at pilot's discretion, cross FUL at 6000, maintain 4000"; "climb via the PTL 066 radial, maintain 9000". */
    private List<Instruction> interrupted(LevelContext spoken) throws ClearanceException {
        List<Instruction> between = spoken.radial() != null
                ? List.of(lines.radial(spoken.radial()))
                : crossings.cross(spoken.cross(), Optional.empty());
        Begin begin = spoken.begin().isEmpty() ? Begin.NOW : when(spoken.begin(0));
        Maintain said = new Maintain(
                quantities.altitudeFt(spoken.altitude(0)),
                Quantities.isLevel(spoken.altitude(0)),
                false,
                spoken.CLIMB() != null ? Vertical.CLIMB : Vertical.DESCEND,
                begin,
                Optional.empty());
        List<Instruction> read = new ArrayList<>(between);
        // Begun at once: of what is said first and in force only from the crossing there is a "cross" before the verb.
        read.add(spoken.radial() == null && begin == Begin.NOW ? 0 : read.size(), said);
        return read;
    }

    private List<Instruction> maintain(LevelContext spoken) throws ClearanceException {
        if (spoken.until().size() > 1
                || spoken.levelBy().size() > 1
                || spoken.rate().size() > 1) {
            throw source.notUnderstood(spoken, "until when, by where, or how fast is said twice");
        }
        List<Instruction> more = new ArrayList<>();
        UntilContext until = spoken.until().isEmpty() ? null : spoken.until(0);
        boolean established = until != null && until.established() != null;
        if (until != null) {
            until(until, more);
        }
        List<BeginContext> begins = new ArrayList<>(spoken.begin());
        Optional.ofNullable(spoken.levelVerb().begin()).ifPresent(begins::add);
        if (begins.size() > 1) {
            throw source.notUnderstood(spoken, "when to begin is said twice");
        }
        Optional<Waypoint> levelBy = Optional.empty();
        if (!spoken.levelBy().isEmpty()) {
            LevelByContext by = spoken.levelBy(0);
            if (by.place() != null) {
                levelBy = Optional.of(places.waypoint(by.place()));
                if (by.BY() == null
                        && by.BEFORE() == null
                        && by.LEVEL() == null
                        && by.REACH() == null
                        && spoken.levelVerb().REACH() == null) {
                    quantities
                            .notes()
                            .add(
                                    "\"" + source.words(by)
                                            + "\": begun now, to be level there; to begin there say \"after passing\" and the fix");
                }
            } else {
                more.add(levelBy(by, spoken.levelVerb()));
            }
        }
        if (!spoken.rate().isEmpty()) {
            more.add(rate(spoken.rate(0)));
        }
        List<Instruction> read = new ArrayList<>();
        read.add(new Maintain(
                quantities.altitudeFt(spoken.altitude(0)),
                Quantities.isLevel(spoken.altitude(0)),
                established,
                vertical(spoken.levelVerb()),
                begins.isEmpty() ? Begin.NOW : when(begins.get(0)),
                levelBy));
        read.addAll(more);
        then(spoken.thenLevel(), read);
        return read;
    }

    private Noted.LevelBy levelBy(LevelByContext by, LevelVerbContext verb) throws ClearanceException {
        When when = whens.one(by, by.near(), null, null, by.number());
        boolean said = by.BY() != null || by.BEFORE() != null || by.LEVEL() != null || by.REACH() != null;
        if (!said && verb.REACH() == null) {
            throw source.notUnderstood(by, "to begin there, or to be level there? say \"level by\", or say it first");
        }
        return new Noted.LevelBy(when);
    }

    private Noted.Rate rate(RateContext spoken) throws ClearanceException {
        int feet = quantities.number(spoken.number()).value();
        if (feet < 100 || feet > 10_000) {
            throw source.notUnderstood(spoken, "a rate of climb or descent is 100 to 10000 feet per minute");
        }
        return new Noted.Rate(feet, Quantities.limit(spoken.speedBound()));
    }

    private void until(UntilContext until, List<Instruction> more) throws ClearanceException {
        if (until.established() != null) {
            whens.established(until.onLine()).line().ifPresent(line -> more.add(new Noted.EstablishedOn(line)));
        } else {
            more.add(new Noted.Until(Noted.Until.What.ALTITUDE, ends(until)));
        }
    }

    private When ends(UntilContext until) throws ClearanceException {
        return until.ADVISED() != null
                ? new When.Advised()
                : whens.one(until, until.near(), until.lineEnd(), until.place(), until.number());
    }

    private static Vertical vertical(@Nullable LevelVerbContext verb) {
        if (verb == null) {
            return Vertical.UNSAID;
        }
        if (verb.CLIMB() != null) {
            return Vertical.CLIMB;
        }
        return verb.DESCEND() != null || verb.DESCENT() != null ? Vertical.DESCEND : Vertical.UNSAID;
    }

    static Begin when(BeginContext spoken) {
        return spoken.DISCRETION() != null ? Begin.PILOTS_DISCRETION : Begin.WHEN_READY;
    }
}
