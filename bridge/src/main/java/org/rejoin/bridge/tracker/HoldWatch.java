package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.route.Holding;

import org.jspecify.annotations.Nullable;

/**
 * A hold from the first passing of its fix on: which entry was flown, which way it turns, how long the inbound legs take,
 * and whether it is left. Turns are counted with the way of the pattern positive, so that left patterns need no words of
 * their own.
 */
final class HoldWatch {

    /** A leg of which no time is said, minutes: AIM 5-3-8. */
    private static final double LEG_MINUTES = 1;

    /** A step as long as this still shows when the fix was passed, seconds; common practice, no source. */
    static final double FIX_SEEN_S = 3;

    private static final double HALF_CIRCLE_DEG = 180;
    private static final double FT_IN_NM = 1852 / 0.3048;

    private enum Part {
        /** From the fix until outbound. */
        TURNING_OUT,
        /** Until the turn inbound is over. */
        OUTBOUND,
        /** Until the fix. */
        INBOUND,
        /** Left, or never entered and past any doubt. */
        OVER
    }

    private final Holding holding;
    private final double way;
    private final double inboundMagneticDeg;
    private final CourseLine inbound;
    private final Rule.HoldEntered entering;
    private final Rule.HoldNotEntered notEntering;
    private final Rule.HoldWrongSide wrong;
    private final Rule.HoldInbound timing;
    private final Rule.HoldLeft leaving;
    private final Rule.Rates rates;
    private final double reachNm;
    private final Dwell outbound;
    private final ThroughOutbound through;
    private final Dwell wingsLevel = new Dwell(0);
    private final Once wrongSide = new Once();
    private final Once notEntered = new Once();

    private Part part = Part.TURNING_OUT;
    private double fixS = Double.NaN;
    private double firstFixS = Double.NaN;
    private Holding.@Nullable Entry sector;
    private Optional<Holding.Entry> otherSector = Optional.empty();
    private Optional<Holding.Entry> flown = Optional.empty();
    private double turnedDeg;
    private boolean turnSeen;
    private double levelS = Double.NaN;
    private double turnedToLevelDeg;
    private double inboundFromS = Double.NaN;
    private double furtherS = Double.NaN;
    private int inboundLegs;
    private @Nullable CourseMeasure last;
    private boolean broken;
    private double acrossS;
    /** The fastest over the ground since it was outbound, knots. */
    private double outboundKt;

    private @Nullable TurnInbound turnInbound;

    /** Where the turn inbound began, on the inbound course; and when, flown seconds. */
    private record TurnInbound(double atS, double outNm, double crossNm, double heightNm) {

        /** As the DME or the distance along the course shows it, whichever is nearer to what was said. */
        double outNm(double saidNm) {
            double slantNm = Math.sqrt(outNm * outNm + crossNm * crossNm + heightNm * heightNm);
            return Math.min(Math.max(saidNm, outNm), slantNm);
        }
    }

    /** A hold that is to be entered. */
    HoldWatch(Holding holding, double variationEastDeg, Rules rules) {
        this.holding = holding;
        this.way = holding.right() ? 1 : -1;
        this.inboundMagneticDeg = holding.inboundTrue().deg() - variationEastDeg;
        this.inbound = new CourseLine.Straight(holding.inboundLine());
        this.entering = rules.of(Rule.HoldEntered.class);
        this.notEntering = rules.of(Rule.HoldNotEntered.class);
        this.wrong = rules.of(Rule.HoldWrongSide.class);
        this.timing = rules.of(Rule.HoldInbound.class);
        this.leaving = rules.of(Rule.HoldLeft.class);
        this.rates = rules.of(Rule.Rates.class);
        this.reachNm = rules.of(Rule.FixSequenced.class).reachNm();
        this.outbound = new Dwell(entering.heldS());
        this.through = new ThroughOutbound(entering.outboundDeg());
    }

    /** The fix is passed for the first time. */
    void begin(FlightInstant now, double passedS) {
        fixS = passedS;
        firstFixS = passedS;
        last = inbound.measure(now);
        broken = false;
        if (!Double.isNaN(now.headingMagneticDeg())) {
            double off = Angles.turn(now.headingMagneticDeg() - inboundMagneticDeg);
            sector = Holding.entry(off, holding.right());
            otherSector = Holding.otherEntry(off, holding.right());
        }
    }

    /** The fix was passed where nobody saw it: of the entry nothing is said. */
    void beginUnseen(FlightInstant now) {
        fixS = now.flownS();
        firstFixS = fixS;
        flown = Optional.of(holding.entry());
        part = Part.OUTBOUND;
        turnedDeg = Double.NaN;
    }

    /** Further clearance is expected then, flown seconds. */
    void furtherAt(double flownS) {
        furtherS = flownS;
    }

    /** Whether the hold was begun. */
    boolean begun() {
        return !Double.isNaN(fixS);
    }

    /** When the fix was last passed, flown seconds; NaN before. */
    double fixS() {
        return fixS;
    }

    /** When the fix was first passed, flown seconds; NaN before. */
    double firstFixS() {
        return firstFixS;
    }

    /** Whether the aircraft is in the pattern now. */
    boolean holds() {
        return flown.isPresent() && part != Part.OVER;
    }

    /** Whether the aircraft is on the inbound course of it, where every mistake before is over. */
    boolean inbound() {
        return part == Part.INBOUND && flown.isPresent();
    }

    /** Inbound legs flown so far. */
    int inboundLegs() {
        return inboundLegs;
    }

    /** Whether the fix was passed and the hold not entered, for so long that it was a fault. */
    boolean missed() {
        return notEntered.done() && flown.isEmpty();
    }

    /** Whether a hold that is flown once has been. */
    boolean flownOnce() {
        return holding.once() && inboundLegs > 0;
    }

    /** One circuit of the hold, seconds. */
    double circuitS(FlightInstant now) {
        return 2 * (outboundS() + Turn.standardTurnS(now.groundSpeedKt(), 180));
    }

    /** The longest outbound leg: the first takes its time whatever the wind, those after it are adjusted (AIM 5-3-8). */
    private double outboundS() {
        return Math.max(
                holding.legMinutes().orElse(LEG_MINUTES) * 60,
                holding.outboundSeconds().orElse(0));
    }

    void step(FlightInstant instant, List<FlightEvent> events) {
        CourseMeasure before = last;
        CourseMeasure now = inbound.measure(instant);
        last = now;
        if (before == null || !begun()) {
            return;
        }
        double turn = way * Angles.turn(instant.trackDeg() - before.instant().trackDeg());
        acrossS = broken ? Math.max(0, now.flownS() - before.flownS()) : 0;
        if (broken && !goesOn(now, turn, events)) {
            return;
        }
        turnedDeg += turn;
        if (holding.legNm().isPresent() && (part == Part.TURNING_OUT || part == Part.OUTBOUND)) {
            turnsInbound(before, now);
        }
        switch (part) {
            case TURNING_OUT -> turningOut(before, now, events);
            case OUTBOUND -> {
                outboundKt = instant.groundSpeedKt() > outboundKt ? instant.groundSpeedKt() : outboundKt;
                outbound(before, now, events);
            }
            case INBOUND -> inbound(before, now, events);
            case OVER -> {}
        }
    }

    /** Whether what nobody saw is so short that it is known how it was flown; else it is looked at anew where it is now. */
    private boolean goesOn(CourseMeasure now, double turn, List<FlightEvent> events) {
        broken = false;
        if (!Turn.knownFromItsEnds(turn, acrossS)) {
            unseen(now, events);
            return false;
        }
        if (part == Part.INBOUND && levelS > now.flownS()) {
            // It looked like the end of the turn and was the simulation that stood.
            goOn(Part.OUTBOUND);
            turnedDeg = turnedToLevelDeg;
            turnSeen = true;
        }
        return true;
    }

    private void unseen(CourseMeasure now, List<FlightEvent> events) {
        boolean past = now.alongNm() >= inbound.lengthNm();
        boolean in = Math.abs(now.trackErrorDeg()) < 90;
        boolean overFix = (part == Part.INBOUND && (past || !in))
                || (part == Part.OUTBOUND && past && in && Math.abs(now.crossTrackNm()) < reachNm);
        if (overFix) {
            overFix(now, now.flownS(), OptionalDouble.empty(), events);
        }
        if (part == Part.OVER) {
            return;
        }
        boolean stillOut = past && in;
        goOn(stillOut ? Part.TURNING_OUT : Part.OUTBOUND);
        turnInbound = null;
        turnedDeg = Double.NaN;
        if (!stillOut) {
            flown = flown.or(() -> Optional.of(holding.entry()));
        }
    }

    private void turningOut(CourseMeasure before, CourseMeasure now, List<FlightEvent> events) {
        OptionalDouble at = outbound.step(fromS(before, now), offOutbound(before), now.flownS(), offOutbound(now));
        boolean wentThrough = through.step(fromS(before, now), now.flownS(), pastOutboundDeg(now));
        // From the time of further clearance on any turn may be the way out, until it has led outbound again.
        if (at.isPresent() || !mayLeave(now)) {
            wrongWayOut(before, now, events);
        }
        if (at.isPresent()) {
            entered(now, at.getAsDouble(), entry(now), events);
            goOn(Part.OUTBOUND);
            return;
        }
        if (wentThrough) {
            entered(now, through.leftS(), entryWithoutLeg(now), events);
            goOn(Part.OUTBOUND);
            turnedDeg = pastOutboundDeg(now);
            return;
        }
        double dueS = fixS
                + notEntering.reactionS()
                + Turn.standardTurnS(now.instant().groundSpeedKt(), notEntering.turnDeg())
                + notEntering.plusS();
        if (through.way() != 0) {
            // Turning inbound already: whether it leads there is seen when half a circle could be over.
            dueS = Math.max(
                    dueS,
                    through.leftS()
                            + Turn.standardTurnS(now.instant().groundSpeedKt(), HALF_CIRCLE_DEG)
                            + notEntering.plusS());
        }
        if (now.flownS() < dueS) {
            return;
        }
        double atS = Math.max(dueS, fromS(before, now));
        if (flown.isPresent()) {
            left(now, fixS, atS, events);
        } else if (notEntered.when(true)) {
            events.add(new FlightEvent.HoldNotEntered(
                    now.timeAt(atS),
                    holding.fix().ident(),
                    atS - fixS,
                    now.instant().position().distanceNm(holding.fix().position())));
        }
    }

    /** The last moment outbound and not turning; without one, the moment on the reciprocal of the inbound course. */
    private void turnsInbound(CourseMeasure before, CourseMeasure now) {
        if (tooShortToTell(before) || tooShortToTell(now)) {
            return;
        }
        double was = offOutbound(before);
        double is = offOutbound(now);
        if (is <= 0) {
            turnInbound = null;
            return;
        }
        if (acrossS > FIX_SEEN_S) {
            return;
        }
        double past = pastOutboundDeg(now);
        double pastBefore = pastOutboundDeg(before);
        if (was <= 0) {
            // The rate is a mean, which has risen by half when half of its base has gone by.
            double lagS = now.instant().ratesOverS() * rates.turningShare();
            turnInbound = turnInbound(before, now, Dwell.root(fromS(before, now), was, now.flownS(), is), lagS);
        } else if (turnInbound == null
                && Math.abs(past - pastBefore) < HALF_CIRCLE_DEG
                && Math.signum(past) != Math.signum(pastBefore)) {
            turnInbound = turnInbound(before, now, Dwell.root(fromS(before, now), pastBefore, now.flownS(), past), 0);
        }
    }

    /** Whether it is too short a while since it was seen again to tell a turn. */
    private boolean tooShortToTell(CourseMeasure m) {
        return m.instant().ratesOverS() < rates.overS() * (1 - rates.turningShare());
    }

    private TurnInbound turnInbound(CourseMeasure before, CourseMeasure now, double atS, double lagS) {
        double share = now.shareAt(before, atS);
        double sinceNm = now.instant().groundSpeedKt()
                * lagS
                / 3600
                * Math.abs(Math.cos(Math.toRadians(before.trackErrorDeg())));
        double heightFt = holding.fix() instanceof Station ? now.instant().altitudeFt() : 0;
        return new TurnInbound(
                atS - lagS,
                inbound.lengthNm() - now.alongAt(before, share) - sinceNm,
                now.crossTrackAt(before, share),
                Double.isNaN(heightFt) ? 0 : heightFt / FT_IN_NM);
    }

    /** At the fix, and at the end of an outbound leg too short to be one. */
    private void wrongWayOut(CourseMeasure before, CourseMeasure now, List<FlightEvent> events) {
        if (through.way() < 0 && !mayBeParallel(now)) {
            if (-pastOutboundDeg(now) > wrong.wrongDeg()) {
                entered(now, through.leftS(), Holding.Entry.DIRECT, events);
            }
            wrongSide(before, now, -pastOutboundDeg(now), wrong.wrongDeg(), events);
        } else if (flown.isPresent()) {
            wrongSide(before, now, -turnedDeg, wrong.wrongDeg(), events);
        } else if (sector != Holding.Entry.PARALLEL
                && otherSector.filter(Holding.Entry.PARALLEL::equals).isEmpty()) {
            // A parallel entry turns that way, out and in again.
            wrongSide(before, now, -turnedDeg, wrong.parallelDeg(), events);
        }
    }

    private boolean mayBeParallel(CourseMeasure now) {
        return flown.isEmpty() && turnedOutDeg(now) < entering.directDeg();
    }

    private void entered(CourseMeasure now, double atS, Holding.Entry entry, List<FlightEvent> events) {
        if (flown.isPresent()) {
            return;
        }
        if (Double.isNaN(turnedDeg)) {
            // The turn out was not seen whole: of the entry nothing is said.
            flown = Optional.of(holding.entry());
            return;
        }
        flown = Optional.of(entry);
        boolean bySector = sector == null
                || entry == sector
                || otherSector.filter(entry::equals).isPresent();
        events.add(new FlightEvent.HoldEntered(now.timeAt(atS), holding.fix().ident(), entry, bySector));
    }

    /** The track less the reciprocal of the inbound course, the way of the pattern positive, degrees, [-180, 180). */
    private double pastOutboundDeg(CourseMeasure m) {
        return Angles.turn(way * (m.trackErrorDeg() - HALF_CIRCLE_DEG));
    }

    /** How far it was turned from the fix to the reciprocal of the inbound course, where it is past that, degrees. */
    private double turnedOutDeg(CourseMeasure now) {
        return turnedDeg - pastOutboundDeg(now);
    }

    /** Without an outbound leg a teardrop is told from a direct entry by the heading on arrival alone. */
    private Holding.Entry entryWithoutLeg(CourseMeasure now) {
        if (through.way() < 0) {
            return Holding.Entry.PARALLEL;
        }
        return sector == Holding.Entry.TEARDROP || turnedOutDeg(now) < entering.directDeg()
                ? Holding.Entry.TEARDROP
                : Holding.Entry.DIRECT;
    }

    /** Direct turns the way of the pattern; the others go out first, on the holding side or not. */
    private Holding.Entry entry(CourseMeasure now) {
        if (turnedDeg >= entering.directDeg()) {
            return Holding.Entry.DIRECT;
        }
        double toHoldingSide = -way * Angles.turn(now.meanTrackErrorDeg() - 180);
        return toHoldingSide >= entering.teardropDeg() ? Holding.Entry.TEARDROP : Holding.Entry.PARALLEL;
    }

    private void outbound(CourseMeasure before, CourseMeasure now, List<FlightEvent> events) {
        // The first turn inbound of a parallel entry goes the other way: over the holding side.
        boolean back =
                inboundLegs == 0 && flown.filter(Holding.Entry.PARALLEL::equals).isPresent();
        if (!mayLeave(now)) {
            wrongSide(before, now, back ? turnedDeg : -turnedDeg, wrong.wrongDeg(), events);
        }
        rollOut(before, now);
        if (!passed(before, now, events)) {
            tooFar(now, events);
        }
    }

    /** The end of the turn inbound; known where the turn was seen. */
    private void rollOut(CourseMeasure before, CourseMeasure now) {
        double lagShare = 1 - rates.turningShare();
        if (tooShortToTell(now)) {
            turnSeen = false;
            return;
        }
        OptionalDouble level = wingsLevel.step(fromS(before, now), offInbound(before), now.flownS(), offInbound(now));
        if (level.isPresent()) {
            // The rate is a mean: it has fallen by half when half of its base has gone by after the end of the turn.
            double baseS = now.instant().ratesOverS();
            double atLevelS = baseS < rates.overS() ? baseS - (now.flownS() - level.getAsDouble()) : baseS;
            levelS = level.getAsDouble();
            turnedToLevelDeg = turnedDeg;
            inboundFromS = turnSeen ? levelS - atLevelS * lagShare : Double.NaN;
            goOn(Part.INBOUND);
        } else {
            turnSeen = offInbound(now) > 0;
        }
    }

    private void inbound(CourseMeasure before, CourseMeasure now, List<FlightEvent> events) {
        if (passed(before, now, events)) {
            return;
        }
        // Turned away again before the fix: this was no inbound leg.
        if (outbound.step(fromS(before, now), offOutbound(before), now.flownS(), offOutbound(now))
                .isPresent()) {
            goOn(Part.OUTBOUND);
        }
        tooFar(now, events);
    }

    /** The fix on the way in. */
    private boolean passed(CourseMeasure before, CourseMeasure now, List<FlightEvent> events) {
        double past = now.alongNm() - inbound.lengthNm();
        double pastBefore = before.alongNm() - inbound.lengthNm();
        boolean here = pastBefore < 0
                && past >= 0
                && Math.abs(now.crossTrackNm()) < reachNm
                && Math.abs((acrossS > FIX_SEEN_S ? before : now).trackErrorDeg()) < 90;
        if (!here) {
            return false;
        }
        double atS = Dwell.root(fromS(before, now), pastBefore, now.flownS(), past);
        boolean timed = part == Part.INBOUND && !Double.isNaN(inboundFromS);
        boolean neverLevel = part == Part.OUTBOUND && turnSeen;
        boolean seen = acrossS <= FIX_SEEN_S && (timed || neverLevel);
        overFix(now, atS, seen ? OptionalDouble.of(timed ? atS - inboundFromS : 0) : OptionalDouble.empty(), events);
        if (acrossS > FIX_SEEN_S) {
            turnedDeg = way
                    * Angles.turn(now.instant().trackDeg() - before.instant().trackDeg());
        }
        return true;
    }

    private void overFix(CourseMeasure now, double atS, OptionalDouble seconds, List<FlightEvent> events) {
        String ident = holding.fix().ident();
        inboundLegs++;
        Optional<TurnInbound> turned = Optional.ofNullable(turnInbound);
        events.add(new FlightEvent.HoldInbound(
                now.timeAt(atS),
                ident,
                inboundLegs,
                seconds,
                turned.map(at -> OptionalDouble.of(at.outNm(holding.legNm().orElseThrow())))
                        .orElse(OptionalDouble.empty()),
                turned.map(at -> OptionalDouble.of(now.timeAt(at.atS()))).orElse(OptionalDouble.empty())));
        turnInbound = null;
        fixS = atS;
        outboundKt = 0;
        goOn(holding.once() ? Part.OVER : Part.TURNING_OUT);
        if (holding.once()) {
            events.add(new FlightEvent.HoldLeft(now.timeAt(atS), ident, true, afterTime(atS)));
        }
    }

    /** A step across a pause may begin after it ends: it is noticed after a while, and that while was not flown. */
    private static double fromS(CourseMeasure before, CourseMeasure now) {
        return Math.min(before.flownS(), now.flownS());
    }

    private boolean mayLeave(CourseMeasure now) {
        return now.flownS() >= furtherS - leaving.earlyS();
    }

    private void goOn(Part next) {
        part = next;
        turnedDeg = 0;
        outbound.reset();
        through.reset();
        wingsLevel.reset();
        turnSeen = false;
        inboundFromS = next == Part.INBOUND ? inboundFromS : Double.NaN;
    }

    private void wrongSide(
            CourseMeasure before, CourseMeasure now, double wrongWay, double limitDeg, List<FlightEvent> events) {
        if (!Double.isNaN(wrongWay) && wrongSide.when(wrongWay > limitDeg)) {
            double step = Math.abs(
                    Angles.turn(now.instant().trackDeg() - before.instant().trackDeg()));
            double atS = Dwell.root(fromS(before, now), wrongWay - step - limitDeg, now.flownS(), wrongWay - limitDeg);
            events.add(
                    new FlightEvent.HoldWrongSide(now.timeAt(atS), holding.fix().ident()));
        }
    }

    private void tooFar(CourseMeasure now, List<FlightEvent> events) {
        double legNm = holding.legNm().orElse(outboundS() * outboundKt / 3600);
        double beforeNm = inbound.lengthNm() - now.alongNm();
        double away = Math.sqrt(beforeNm * beforeNm + now.crossTrackNm() * now.crossTrackNm());
        if (part != Part.OVER && away > leaving.times() * legNm + leaving.plusNm()) {
            // It was left where the pattern ends, or after.
            double beyondS = (away - legNm) / Math.max(1, now.instant().groundSpeedKt()) * 3600;
            left(now, Math.max(fixS, now.flownS() - beyondS), now.flownS(), events);
        }
    }

    /** Without a clearance: at the time of further clearance that is as told, else it is the route that is left. */
    private void left(CourseMeasure now, double leftS, double atS, List<FlightEvent> events) {
        part = Part.OVER;
        String ident = holding.fix().ident();
        events.add(new FlightEvent.HoldLeft(now.timeAt(atS), ident, false, afterTime(leftS)));
        if (leftS >= furtherS - leaving.earlyS()) {
            return;
        }
        events.add(new FlightEvent.RouteLeft(
                now.timeAt(atS), ident, now.crossTrackNm(), inbound.lengthNm() - now.alongNm()));
    }

    /** Zero or less while outbound and not turning. */
    private double offOutbound(CourseMeasure m) {
        double off = Math.abs(Angles.turn(m.trackErrorDeg() - 180)) / entering.outboundDeg();
        return Math.max(off, m.instant().turning() / rates.turningShare()) - 1;
    }

    /** Zero or less while inbound and not turning. */
    private double offInbound(CourseMeasure m) {
        double off = Math.abs(m.trackErrorDeg()) / timing.alongDeg();
        return Math.max(off, m.instant().turning() / rates.turningShare()) - 1;
    }

    /**
     * A gap or a pause. Where the turn across it is known from its ends the hold goes on: whose roll-out and fix were seen
     * has a time. Across a longer one nothing is concluded.
     */
    void breakOff() {
        broken = true;
    }

    /** The next clearance: whoever holds leaves as cleared. */
    void cleared(double timeS, List<FlightEvent> events) {
        if (holds()) {
            part = Part.OVER;
            double flownS = last == null ? Double.NaN : last.flownS();
            events.add(new FlightEvent.HoldLeft(timeS, holding.fix().ident(), true, afterTime(flownS)));
        }
    }

    private OptionalDouble afterTime(double flownS) {
        double after = flownS - furtherS;
        return Point.given(after);
    }
}
