package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AfterContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.InstructionContext;

import org.antlr.v4.runtime.ParserRuleContext;

/** The instructions of one clearance together: what begins later, what is said twice, what is not followed. */
final class WholeClearance {

    private final Source source;
    private final Clauses clauses;
    private final List<Instruction> read;
    private final List<String> notes;
    private final List<Later> later = new ArrayList<>();
    private final List<Begun> begun = new ArrayList<>();
    private final List<Integer> established = new ArrayList<>();
    private final Map<Instruction.Until, Instruction> onto;

    WholeClearance(
            Source source,
            Clauses clauses,
            List<Instruction> read,
            List<String> notes,
            Map<Instruction.Until, Instruction> onto) {
        this.source = source;
        this.clauses = clauses;
        this.read = read;
        this.notes = notes;
        this.onto = onto;
    }

    /** A part of the clearance, where what it came to begins in what was read, and what stands before it. */
    private record Begun(int at, InstructionContext part, Pause pause) {

        boolean isLimit() {
            return part.level() != null || part.speed() != null;
        }
    }

    /**
     * "After PRION, ...": what stands behind it begins there, or what stands before it.
     *
     * @param first of what begins there
     * @param end behind the last of it; -1 for as far as the sentence goes
     * @param parted whether commas part it from what stands before and behind it
     */
    private record Later(int first, int end, When when, ParserRuleContext spoken, boolean parted) {

        Optional<Waypoint> fix() {
            return when instanceof When.AtLine at && at.line() instanceof Instruction.Until.AtFix fix
                    ? Optional.of(fix.fix())
                    : Optional.empty();
        }
    }

    /** What is read from now on begins there. */
    void later(When when, AfterContext spoken, boolean parted) {
        later.add(new Later(read.size(), -1, when, spoken, parted));
    }

    /**
     * "At PRION contact center 127.9": that the contact alone begins there, where the sentence ends with it.
     *
     * @param behind what stands behind it
     */
    Optional<ParserRuleContext> heardThere(Pause behind) throws ClearanceException {
        Later last = later.isEmpty() ? null : later.get(later.size() - 1);
        if (last == null || last.end() >= 0 || last.first() < read.size() || behind.then() || behind.joins()) {
            return Optional.empty();
        }
        if (last.parted() && last.first() > 0) {
            throw clauses.ofWhich(last.spoken());
        }
        if (!behind.stop()) {
            throw source.notUnderstood(
                    last.spoken(),
                    "does what follows begin there too? put a full stop before it where it is due now, or \"then\" where it"
                            + " begins there");
        }
        later.remove(later.size() - 1);
        return Optional.of(last.spoken());
    }

    /** What was read from there on begins there. */
    void saidBehind(int first, When when, AfterContext spoken) {
        later.add(new Later(first, read.size(), when, spoken, false));
    }

    /** "As filed to PRION, then direct FUL": what is read from now on begins there. */
    void filedTo(Waypoint fix, InstructionContext spoken) {
        later.add(new Later(read.size(), -1, new When.AtLine(new Instruction.Until.AtFix(fix)), spoken, false));
    }

    /** "As filed to PRION" alone: neither a limit nor a way on is said. */
    void filedToOnly() throws ClearanceException {
        for (Later each : later) {
            if (each.spoken() instanceof InstructionContext part && part.filedTo() != null) {
                throw notSaidFrom(each);
            }
        }
    }

    /** "Cross PRION at 8000, then direct FUL", "direct PRION, then heading 180": the way on begins over the fix. */
    void thenOn(InstructionContext part) throws ClearanceException {
        int last = read.size() - 1;
        while (last >= 0 && read.get(last) instanceof Instruction.Maintain) {
            last--;
        }
        if (last < 0 || !isWay(part)) {
            return;
        }
        Optional<When> there = InTurn.crossed(read.get(last)).map(InTurn.Crossed::where);
        boolean vector = part.heading() != null || part.turnBy() != null || part.presentHeading() != null;
        if (vector && behindLine()) {
            throw source.notUnderstood(
                    part,
                    "before the line is joined, or from where on? to be flown first it stands first; later it is \"after\""
                            + " a fix");
        }
        boolean turns = part.heading() != null && last == read.size() - 1;
        if (there.isEmpty() && turns) {
            there = end(read.get(last)).map(fix -> new When.AtLine(new Instruction.Until.AtFix(fix)));
        }
        there.ifPresent(where -> later.add(new Later(read.size(), -1, where, part, false)));
    }

    /** Whether a line was said last, with an altitude or a speed behind it or not, and no fix to fly on from. */
    private boolean behindLine() {
        int line = read.size() - 1;
        while (line >= 0 && isLimit(read.get(line))) {
            line--;
        }
        int said = line;
        return line >= 0
                && InstructionReader.joined(read.get(line)).isPresent()
                && later.stream().noneMatch(each -> each.end() < 0 && each.first() > said);
    }

    /** The fix to which an instruction leads at once. */
    private static Optional<Waypoint> end(Instruction said) {
        if (said instanceof Instruction.Direct direct
                && !direct.whenAble()
                && direct.away().isEmpty()) {
            return Optional.of(direct.to());
        }
        return said instanceof Instruction.JoinAirway join ? join.to() : Optional.empty();
    }

    private static boolean isWay(InstructionContext part) {
        return part.direct() != null
                || part.join() != null
                || part.intercept() != null
                || part.heading() != null
                || part.turnBy() != null
                || part.presentHeading() != null;
    }

    /** A part begins, with what stands before it. */
    void begins(InstructionContext part, Pause pause) {
        oneAirwayOnce();
        begun.add(new Begun(read.size(), part, pause));
    }

    /** What was read last ends where the course of the clearance is joined. */
    void untilEstablished() {
        established.add(read.size() - 1);
    }

    /** The fix at which what is read next begins; empty where it begins elsewhere, or something was read since. */
    Optional<Waypoint> beginsAt() {
        return later.isEmpty()
                        || later.get(later.size() - 1).end() >= 0
                        || later.get(later.size() - 1).first() < read.size()
                ? Optional.empty()
                : later.get(later.size() - 1).fix();
    }

    /** Brings them together, once all are read. */
    void finish() throws ClearanceException {
        oneAirwayOnce();
        atTheFix();
        inOrder();
        beginLater();
        ontoItsLine();
        ontoTheAirway();
        limitsOnlyOnce();
    }

    /** "Fly heading 190 until V40, then as filed": onto V40, which is flown from there on (common practice, no source). */
    private void ontoTheAirway() {
        boolean onward = read.stream().anyMatch(Instruction.Onward.class::isInstance);
        for (int i = 0; onward && i < read.size(); i++) {
            if (read.get(i) instanceof Noted.Until until
                    && until.what() == Noted.Until.What.HEADING
                    && until.when() instanceof When.AtLine at
                    && at.line() instanceof Instruction.Until.AtAirway airway
                    && read.stream().noneMatch(WholeClearance::leads)) {
                read.set(i, new Instruction.InterceptAirway(airway.airway()));
                notes.add("\"" + until.words() + "\": taken for \"intercept " + airway.airway() + "\"");
            }
        }
    }

    /**
     * "Turn left heading 040, maintain 8000 until established on V21": the heading leads onto V21, though no more is said of
     * it (FAA Order JO 7110.65, 5-6-2).
     */
    void ontoItsLine() {
        int vector = read.size() - 1;
        while (vector >= 0 && !(read.get(vector) instanceof Instruction.Heading)) {
            vector--;
        }
        for (int i = 0; vector >= 0 && i < read.size(); i++) {
            if (leads(read.get(i))) {
                return;
            }
            Optional<Instruction> named = establishedOn(read.get(i))
                    .filter(line -> read.stream()
                            .noneMatch(each -> InstructionReader.line(each)
                                    .filter(line::equals)
                                    .isPresent()))
                    .map(onto::get);
            if (named.isPresent()) {
                read.add(Math.max(i, vector) + 1, named.get());
            }
        }
    }

    static boolean leads(Instruction said) {
        return said instanceof Instruction.Onto
                || said instanceof Instruction.StationLine
                || said instanceof Instruction.Depart;
    }

    /** The line on which an altitude or a speed ends or begins. */
    private static Optional<Instruction.Until> establishedOn(Instruction said) {
        Optional<When> when = said instanceof Noted.After after
                ? Optional.of(after.when())
                : InTurn.end(said, Noted.Until.What.ALTITUDE).or(() -> InTurn.end(said, Noted.Until.What.SPEED));
        return when.flatMap(at -> at instanceof When.Established established ? established.line() : Optional.empty());
    }

    /**
     * "At PRION, turn right heading 120 and descend and maintain 6000": with "and" or "then" an altitude or a speed behind
     * the way on from a fix begins there too; behind a comma alone it cannot be told.
     */
    private void atTheFix() throws ClearanceException {
        for (Later each : later) {
            if (each.end() >= 0
                    || each.fix().isEmpty()
                    || each.first() >= read.size()
                    || !leadsFrom(read.get(each.first()))) {
                continue;
            }
            for (Begun said : begun) {
                if (said.at() <= each.first() || said.at() >= read.size()) {
                    continue;
                }
                if (said.pause().stop() || said.part().after() != null) {
                    break;
                }
                Instruction limit = read.get(said.at());
                if (!isLimit(limit)) {
                    continue;
                }
                if (!said.pause().then() && !said.pause().and()) {
                    throw source.notUnderstood(
                            said.part(),
                            "now, or from " + each.fix().get().ident()
                                    + " on? from there on it is behind \"and\"; now it is said first, or behind a full"
                                    + " stop");
                }
                read.set(said.at(), new Noted.After(each.when(), List.of(limit), false));
            }
        }
    }

    private static boolean leadsFrom(Instruction said) {
        return said instanceof Instruction.FlyHeading
                || said instanceof Instruction.StationLine
                || said instanceof Instruction.Onto;
    }

    private static boolean isLimit(Instruction said) {
        return said instanceof Instruction.Maintain || said instanceof Instruction.Speed;
    }

    /** An altitude or a speed behind "then" begins where what is said before it is reached, passed or over. */
    private void inOrder() {
        for (int i = 0; i < begun.size(); i++) {
            Begun each = begun.get(i);
            int at = each.at();
            if (each.pause().then() && isWay(each.part()) && at > 0) {
                dueAtOnce(at);
            }
            if (!each.pause().then()
                    || !each.isLimit()
                    || at < 1
                    || at >= read.size()
                    || read.get(at) instanceof Noted.After) {
                continue;
            }
            Instruction said = read.get(at);
            Optional<When> begins = begins(said, at);
            begins.ifPresent(when -> read.set(at, new Noted.After(when, List.of(said), true)));
            // What "and" joins to it begins with it.
            for (int k = i + 1;
                    begins.isPresent()
                            && k < begun.size()
                            && begun.get(k).pause().joins();
                    k++) {
                int joined = begun.get(k).at();
                if (joined < read.size() && isLimit(read.get(joined))) {
                    read.set(joined, new Noted.After(begins.get(), List.of(read.get(joined)), true));
                }
            }
            if (begins.isEmpty() && !(read.get(at - 1) instanceof Instruction.Assignment)) {
                thenIsNow(said);
            }
        }
    }

    /** "Climb and maintain 9000, then direct FUL": a way is not begun by an altitude or a speed that is reached. */
    private void dueAtOnce(int at) {
        Instruction before = read.get(at - 1);
        boolean limitsAlone = read.subList(0, at).stream()
                .allMatch(each -> each instanceof Instruction.Assignment || each instanceof Instruction.Heading);
        boolean begunLater = later.stream().anyMatch(each -> each.first() <= at && at < end(each));
        if (limitsAlone && !begunLater && isLimit(before) && at < read.size()) {
            thenIsNow(read.get(at));
        }
    }

    private void thenIsNow(Instruction said) {
        notes.add("\"then\": \"" + Phraseology.say(said)
                + "\" is due at once; to begin later it is \"after\" or"
                + " \"when established\", then that");
    }

    /** Empty where nothing is said before it that it can come after, or that begins it without a word more. */
    private Optional<When> begins(Instruction said, int at) {
        boolean altitude = said instanceof Instruction.Maintain;
        if (!altitude && !(said instanceof Instruction.Speed)) {
            return Optional.empty();
        }
        for (int i = at - 1; i >= 0; i--) {
            Instruction before = read.get(i);
            if (before instanceof Noted.After after && after.then().size() == 1) {
                before = after.then().get(0);
            }
            Optional<InTurn.Crossed> crossed = InTurn.crossed(before);
            if (crossed.isPresent()) {
                return crossed.filter(cross ->
                                !(said instanceof Instruction.Maintain maintain) || maintain.feet() != cross.feet())
                        .map(InTurn.Crossed::where);
            }
            Optional<When> ends = InTurn.end(before, altitude ? Noted.Until.What.SPEED : Noted.Until.What.ALTITUDE);
            if (ends.isPresent()) {
                return ends;
            }
            if (before instanceof Instruction.Maintain maintain) {
                // "Descend now to 5000, then descend at pilot's discretion, maintain 4000" (7110.65 4-5-7).
                return altitude
                        ? Optional.of(said)
                                .filter(next -> ((Instruction.Maintain) next).when() != Instruction.Maintain.Begin.NOW)
                                .map(next -> new When.Reached(maintain))
                        : Optional.of(
                                maintain.untilEstablished()
                                        ? new When.Established(Optional.empty())
                                        : new When.Reached(maintain));
            }
            if (before instanceof Instruction.MaintainSpeed) {
                return altitude ? Optional.of(new When.Reached(before)) : Optional.empty();
            }
            if (before instanceof Noted.Until until && until.what() == Noted.Until.What.HEADING) {
                return Optional.of(until.when());
            }
            Optional<When> joined = established.contains(i)
                    ? Optional.of(new When.Established(Optional.empty()))
                    : InstructionReader.joined(before);
            if (joined.isPresent()) {
                return joined;
            }
            if (!(before instanceof Noted.LevelBy || before instanceof Noted.Rate)) {
                return Optional.empty();
            }
        }
        return Optional.empty();
    }

    /** What stands behind "after PRION" begins there, or what stands before it; a heading begun at a fix departs it. */
    void beginLater() throws ClearanceException {
        int[] ends = later.stream().mapToInt(this::end).toArray();
        for (int i = later.size() - 1; i >= 0; i--) {
            int size = read.size();
            begin(later.get(i), ends[i]);
            for (int k = 0; k < i; k++) {
                ends[k] += ends[k] > later.get(i).first() ? read.size() - size : 0;
            }
        }
    }

    /** What begins somewhere is said as far as the full stop. */
    private int end(Later each) {
        return each.end() >= 0
                ? each.end()
                : begun.stream()
                        .filter(said -> said.at() > each.first() && said.pause().stop())
                        .mapToInt(Begun::at)
                        .min()
                        .orElse(read.size());
    }

    /** "As filed to PRION, maintain 7000, then direct FUL": 7000 is due now, and only the way begins there. */
    private Later wayOf(Later said, int end) throws ClearanceException {
        boolean filedTo = said.spoken() instanceof InstructionContext part && part.filedTo() != null;
        boolean then = begun.stream()
                .anyMatch(each -> each.at() == said.first() && each.pause().then());
        if (!filedTo || then) {
            return said;
        }
        int first = said.first() + leadingLimits(read.subList(said.first(), end));
        if (first == end) {
            throw notSaidFrom(said);
        }
        return new Later(first, said.end(), said.when(), said.spoken(), said.parted());
    }

    private ClearanceException notSaidFrom(Later filedTo) {
        return source.notUnderstood(
                filedTo.spoken(),
                "how the route goes on from "
                        + filedTo.fix().orElseThrow().ident()
                        + " is not said: say it behind \"then\"; where it is the limit say \"cleared to\" it");
    }

    private void begin(Later said, int end) throws ClearanceException {
        Later each = wayOf(said, end);
        List<Instruction> behind = read.subList(each.first(), end);
        // The route goes on by itself when the course is joined: only the altitude or speed right behind begins then.
        List<Instruction> tail =
                each.when() instanceof When.Established ? behind.subList(0, leadingLimits(behind)) : behind;
        if (tail.isEmpty()) {
            throw source.notUnderstood(
                    each.spoken(),
                    each.when() instanceof When.Established
                            ? "an altitude or a speed may begin there; where the course is left is said by a fix"
                            : "what begins there is not said");
        }
        if (each.parted() && each.first() > 0) {
            Instruction next = tail.get(0);
            clauses.ofTheSecond(
                    each.spoken(),
                    read.get(each.first() - 1),
                    next instanceof Noted.After after ? after.then().get(0) : next);
        }
        if (each.fix().filter(fix -> departs(fix, tail)).isPresent()) {
            return;
        }
        // "At PRION, descend and maintain 5000 and proceed direct FUL": the altitude begins there, and so does the way.
        List<Instruction> way = tail.subList(leadingLimits(tail), tail.size());
        if (each.end() < 0
                && !way.isEmpty()
                && way.size() < tail.size()
                && ((leadsThere(each.when()) && way.stream().allMatch(Instruction.Onward.class::isInstance))
                        || each.fix().filter(fix -> departs(fix, way)).isPresent())) {
            List<Instruction> limits = tail.subList(0, leadingLimits(tail));
            Noted there = new Noted.After(each.when(), limits, false);
            limits.clear();
            read.add(each.first(), there);
            return;
        }
        Noted after = new Noted.After(each.when(), tail, false);
        tail.clear();
        read.add(each.first(), after);
    }

    /** Whether it is a place, to which the route leads that is flown on from there; at a time or a level that is not known. */
    private static boolean leadsThere(When when) {
        return when.fold(new When.Cases<Boolean>(
                line -> true,
                near -> true,
                time -> false,
                level -> false,
                established -> false,
                advised -> false,
                beside -> true,
                reached -> false));
    }

    /** How many in front are of altitude or speed. */
    private static int leadingLimits(List<Instruction> tail) {
        int count = 0;
        while (count < tail.size()
                && (tail.get(count) instanceof Instruction.Maintain
                        || tail.get(count) instanceof Instruction.Speed
                        || tail.get(count) instanceof Noted)) {
            count++;
        }
        return count;
    }

    /** Puts a departure before the way on from a fix, or in place of its heading or radial; whether it is one. */
    private static boolean departs(Waypoint fix, List<Instruction> tail) {
        if (tail.get(0) instanceof Instruction.FlyHeading fly) {
            tail.set(0, new Instruction.Depart(fix, Optional.of(fly.heading()), Optional.empty(), fly.direction()));
            return true;
        }
        if (tail.get(0) instanceof Instruction.StationLine line) {
            Optional<Instruction.Depart> outbound = LineReader.departing(fix, line);
            outbound.ifPresent(depart -> tail.set(0, depart));
            return outbound.isPresent();
        }
        if (tail.get(0) instanceof Instruction.Hold hold && hold.fix().equals(fix)) {
            // "At BBB hold as published" is a hold at BBB.
            return true;
        }
        Instruction way = tail.get(tail.get(0) instanceof Noted.TurnOnto && tail.size() > 1 ? 1 : 0);
        boolean onward = way instanceof Instruction.Onto || way instanceof Instruction.Onward;
        if (onward && tail.stream().allMatch(WholeClearance::leadsOn)) {
            tail.add(0, new Instruction.Depart(fix));
            return true;
        }
        return false;
    }

    private static boolean leadsOn(Instruction said) {
        return said instanceof Instruction.Direct
                || said instanceof Instruction.JoinAirway
                || said instanceof Instruction.Hold
                || said instanceof Instruction.ClearedTo
                || said instanceof Noted.ForHold
                || said instanceof Noted.TurnOnto
                || said instanceof Instruction.Report
                || said instanceof Instruction.Expect
                || (said instanceof Noted.After after && InTurn.says(after))
                || said instanceof Instruction.Onward;
    }

    /** Two of a kind with nothing between them contradict each other: the last counts, and a note says so. */
    private void limitsOnlyOnce() {
        notes.addAll(ofAltitudes(read));
        if (InTurn.speeds(read).size() < 2) {
            twice(read, "speeds", Instruction.MaintainSpeed.class).ifPresent(notes::add);
        }
        twice(read, "clearance limits", Instruction.ClearedTo.class).ifPresent(notes::add);
        twice(read, "holds", Instruction.Hold.class).ifPresent(notes::add);
        for (Instruction each : read) {
            if (each instanceof Noted.ForHold awaited) {
                if (read.stream().noneMatch(Instruction.Hold.class::isInstance)) {
                    notes.add("\"" + awaited.words() + "\": " + awaitedAt());
                } else if (each instanceof Noted.FurtherClearance) {
                    notes.add("\"" + awaited.words()
                            + "\": heard, and not kept with the hold; say it behind the hold, as a time of day");
                }
            } else if (each instanceof Noted.JoinedWithin within) {
                notes.add("\"" + within.words()
                        + "\": the route is worked out by it; in flight where you join is not looked at");
            } else if (each instanceof Noted noted && !InTurn.says(noted)) {
                notes.add("\"" + noted.words() + "\": understood, and not followed here");
            } else if (each instanceof Instruction.Depart depart
                    && depart.heading().isEmpty()
                    && depart.turn() != Instruction.TurnDirection.SHORTEST) {
                notes.add("\"turn " + Phraseology.turn(depart.turn()) + "\" over "
                        + depart.fix().ident() + ": understood, and not followed here");
            }
        }
    }

    /** What is to be noted of the altitudes among some instructions. */
    static List<String> ofAltitudes(List<Instruction> said) {
        List<String> notes = new ArrayList<>();
        if (InTurn.altitudes(said).size() < 2) {
            twice(said, "altitudes", Instruction.Maintain.class).ifPresent(notes::add);
        }
        holdsOn(said).ifPresent(notes::add);
        return notes;
    }

    /** An altitude that ends somewhere with none after it holds on: no other is cleared. */
    private static Optional<String> holdsOn(List<Instruction> said) {
        Optional<String> last = Optional.empty();
        String ends = "";
        for (Instruction each : said) {
            if (each instanceof Instruction.Maintain maintain) {
                last = Optional.of(maintain.figures());
                ends = maintain.untilEstablished() ? new When.Established(Optional.empty()).words() : "";
            } else {
                ends = InTurn.end(each, Noted.Until.What.ALTITUDE)
                        .map(When::words)
                        .orElse(each instanceof Noted.After ? "" : ends);
            }
        }
        String until = ends;
        return last.filter(feet -> !until.isEmpty())
                .map(feet -> "\"until " + until + "\": no altitude is said for after it, so " + feet
                        + " holds on until ATC says more");
    }

    private String awaitedAt() {
        return read.stream()
                .filter(Instruction.ClearedTo.class::isInstance)
                .map(each -> "for " + ((Instruction.ClearedTo) each).limit().ident() + ", the limit, at which you wait")
                .reduce((first, last) -> last)
                .orElse("for the place where you wait; none is said with it");
    }

    private static Optional<String> twice(List<Instruction> all, String what, Class<? extends Instruction> kind) {
        List<Instruction> said =
                all.stream().filter(kind::isInstance).distinct().toList();
        boolean further = said.size() > 1
                && said.get(said.size() - 1) instanceof Instruction.Maintain last
                && said.get(said.size() - 2) instanceof Instruction.Maintain before
                && last.goesOnFrom(before);
        return said.size() > 1 && !further
                ? Optional.of("two " + what + " in one clearance: \"" + Phraseology.say(said.get(said.size() - 2))
                        + "\", then \"" + Phraseology.say(said.get(said.size() - 1))
                        + "\"; the last counts here, ask if that is not what is meant")
                : Optional.empty();
    }

    /** "Join Q104 at OB, Q104 to PIVOX" is one airway said twice, not two. */
    private void oneAirwayOnce() {
        for (int i = 0; i + 1 < read.size(); i++) {
            int next = read.get(i + 1) instanceof Noted.JoinedWithin && i + 2 < read.size() ? i + 2 : i + 1;
            if (read.get(i) instanceof Instruction.JoinAirway first
                    && read.get(next) instanceof Instruction.JoinAirway second
                    && first.airway().equals(second.airway())
                    && first.to().isEmpty()
                    && second.at().isEmpty()) {
                read.set(
                        i,
                        new Instruction.JoinAirway(
                                first.airway(),
                                first.at(),
                                second.to(),
                                first.away(),
                                first.bound().or(second::bound)));
                read.remove(next);
            }
        }
    }
}
