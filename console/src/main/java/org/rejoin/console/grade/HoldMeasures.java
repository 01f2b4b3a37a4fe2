package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.LegMap;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.route.Holding;
import org.rejoin.console.words.Words;

import org.jspecify.annotations.Nullable;

/** What is measured in a hold: its entry, the times or lengths of its legs, how its inbound course is tracked, its speed. */
final class HoldMeasures {

    private static final Rule.HoldInbound TIMING = Rules.STANDARD.of(Rule.HoldInbound.class);
    private static final Rule.HoldOutbound LENGTH = Rules.STANDARD.of(Rule.HoldOutbound.class);
    private static final Rule.HoldWrongSide WRONG = Rules.STANDARD.of(Rule.HoldWrongSide.class);

    private static final double HALF_CIRCLE_DEG = 180;

    /** No inbound leg is longer, seconds. */
    private static final double KEPT_S = 900;

    /** On the inbound course, and so to keep to it: along it to within this, degrees; common practice, no source. */
    private static final double ALONG_DEG = 10;

    /** A speed above the maximum counts when it lasts this long, seconds; common practice, no source. */
    private static final double SPEED_HELD_S = HeldMeasures.HELD_S;

    private static final String TASK = "FAA-S-ACS-8C, IR.III.B";

    /** A point of a leg inbound. */
    private record At(double timeS, double crossNm, double trackErrorDeg) {}

    private final Optional<Holding> holding;
    private final Limits limits;

    /** What it is on the inbound course is worked out once it is known to be a leg inbound. */
    private final WayFlown way = new WayFlown();

    private final Worst fast = new Worst.Held(SPEED_HELD_S);
    private final Span inHold = Span.nothing();
    private boolean speedSeen;
    private @Nullable LegMap map;

    private FlightEvent.@Nullable HoldEntered entered;
    private double overFixKt;
    private double arrivedDeg = Double.NaN;
    private final List<FlightEvent.HoldInbound> legs = new ArrayList<>();
    private double offNm = Double.NaN;
    private double offAtS = Double.NaN;
    private double limitNm = Double.NaN;
    private double wrongFromDeg;
    private double wrongDeg;
    private boolean turningWrong;
    private boolean wrongAtEntry;
    private double wrongTrackDeg;
    private double wrongFlownS;
    private double wrongAtS;
    private double seenAgainS;
    private double wrongWay;
    private double turnRateDegPerS;
    private FlightEvent.@Nullable HoldNotEntered missed;
    private double missedS;

    HoldMeasures(Optional<Holding> holding, Limits limits) {
        this.holding = holding;
        this.limits = limits;
    }

    void point(Point now) {
        if (holding.isEmpty()) {
            return;
        }
        overFixKt = entered == null ? now.groundSpeedKt() : overFixKt;
        way.addLast(now);
        way.forgetBefore(now.timeS() - KEPT_S);
        if (now.newPiece()) {
            fast.breakOff();
        }
        if (now.phase() == Point.Phase.HOLDING) {
            inHold.add(now.timeS());
            double knots = now.state().indicatedAirspeedKtOrNaN();
            if (!Double.isNaN(knots)) {
                speedSeen = true;
                fast.add(
                        now.flownS(),
                        now.timeS(),
                        Math.max(0, knots - holding.get().maximumSpeedKt()));
            }
        }
        turned(now);
        if (missed != null && entered == null) {
            missedS = missed.afterS() + now.timeS() - missed.timeS();
        }
    }

    /** How far a turn to the wrong side went on, until it is turned back. */
    private void turned(Point now) {
        // Seen again for less than a second there is no rate yet.
        seenAgainS = now.newPiece() ? now.flownS() : seenAgainS;
        boolean rateKnown = now.flownS() >= seenAgainS + 1;
        double turned = Angles.turn(now.trackTrueDeg() - wrongTrackDeg);
        if (turningWrong && now.newPiece() && !Turn.knownFromItsEnds(turned, Math.max(0, now.flownS() - wrongFlownS))) {
            turningWrong = false;
        } else if (turningWrong) {
            wrongDeg += Math.max(0, wrongWay * turned * shareSince(now));
            turningWrong = !rateKnown || wrongWay * now.turnRateDegPerS() > 0.5;
        }
        wrongTrackDeg = now.trackTrueDeg();
        wrongFlownS = now.flownS();
        turnRateDegPerS = rateKnown ? now.turnRateDegPerS() : turnRateDegPerS;
    }

    /** How much of the step that ends now came after the turn was told to be one to the wrong side: all but of its own. */
    private double shareSince(Point now) {
        double stepS = now.flownS() - wrongFlownS;
        double sinceS = now.timeS() - wrongAtS;
        return stepS <= 0 ? 1 : Math.min(1, sinceS / stepS);
    }

    void event(FlightEvent event) {
        if (event instanceof FlightEvent.FixSequenced passed) {
            arrived(passed.ident());
        } else if (event instanceof FlightEvent.HoldEntered at) {
            entered = at;
        } else if (event instanceof FlightEvent.HoldInbound leg) {
            legs.add(leg);
            leg.seconds().ifPresent(seconds -> inboundCourse(leg, seconds));
        } else if (event instanceof FlightEvent.HoldWrongSide wrong) {
            wrongAtS = wrong.timeS();
            // At the fix of the entry a parallel entry may turn so far.
            wrongFromDeg = entered == null ? WRONG.parallelDeg() : WRONG.wrongDeg();
            wrongDeg = wrongFromDeg;
            wrongAtEntry = legs.isEmpty();
            turningWrong = true;
            // The turn inbound of a parallel entry goes the other way than the pattern: wrong is the way it is turned.
            wrongWay = Math.signum(turnRateDegPerS);
        } else if (event instanceof FlightEvent.HoldNotEntered not) {
            missed = not;
            missedS = not.afterS();
        }
    }

    /** Over the fix for the first time: how far its track leads to the holding side of the inbound course. */
    private void arrived(String ident) {
        if (holding.filter(each -> each.fix().ident().equals(ident)).isEmpty() || way.size() == 0 || entered != null) {
            return;
        }
        double off = Angles.turn(
                way.trackTrueDeg(way.size() - 1) - holding.get().inboundTrue().deg());
        arrivedDeg = holding.get().right() ? off : -off;
    }

    /** Of the inbound course; made when the first leg of it is flown. */
    private LegMap map() {
        LegMap made = map == null ? new LegMap(holding.orElseThrow().inboundLine()) : map;
        map = made;
        return made;
    }

    private At at(int index, LegMap inbound) {
        Offset offset = inbound.offset(way.position(index));
        return new At(
                way.timeS(index),
                offset.crossTrackNm(),
                Angles.turn(way.trackTrueDeg(index) - offset.course().deg()));
    }

    /** The largest part of its limit off the inbound course, from where it is on it, or, where it never is, all the way. */
    private void inboundCourse(FlightEvent.HoldInbound leg, double seconds) {
        LegMap map = map();
        int last = way.size() - 1;
        double overFixS = leg.timeS() - (way.timeS(last) - way.flownS(last));
        List<At> flown = IntStream.rangeClosed(0, last)
                .filter(i -> way.flownS(i) >= overFixS - seconds && way.timeS(i) <= leg.timeS())
                .mapToObj(i -> at(i, map))
                .toList();
        double scale = limits.fullScaleAtNm(Double.POSITIVE_INFINITY);
        int first = 0;
        while (first < flown.size()
                && !(Math.abs(flown.get(first).crossNm()) <= scale / 2
                        && Math.abs(flown.get(first).trackErrorDeg()) <= ALONG_DEG)) {
            first++;
        }
        for (At at : flown.subList(first == flown.size() ? 0 : first, flown.size())) {
            double off = Math.abs(at.crossNm());
            if (Double.isNaN(offNm) || off > offNm) {
                offNm = off;
                offAtS = at.timeS();
            }
        }
        limitNm = scale * limits.courseScale();
    }

    /**
     * What can be graded of the hold.
     *
     * @param notes takes what is not judged because it was not due
     * @param over whether nothing more can come
     * @param due whether what was not done was due
     */
    void grade(List<Criterion> criteria, List<String> notes, boolean over, boolean due, Span span) {
        if (holding.isEmpty()) {
            return;
        }
        entry(criteria, over, due, span);
        times(criteria, notes, over, due, span);
        String source = "3/4 of full scale (" + TASK + ")";
        if (!Double.isNaN(offNm)) {
            criteria.add(new Criterion.Asked(Criterion.Kind.HOLD_COURSE, limitNm, inHold, source)
                    .measured(offNm)
                    .at(offAtS));
        } else if (over && !legs.isEmpty()) {
            double limit = limits.fullScaleAtNm(Double.POSITIVE_INFINITY) * limits.courseScale();
            criteria.add(new Criterion.Asked(Criterion.Kind.HOLD_COURSE, limit, inHold, source)
                    .notJudged("no inbound leg was seen whole"));
        }
        if (speedSeen && !inHold.empty()) {
            String most = Words.say(
                    "at most %.0f kt (AIM 5-3-8), 10 kt (%s)", holding.get().maximumSpeedKt(), TASK);
            criteria.add(new Criterion.Asked(Criterion.Kind.HOLD_SPEED, 10, inHold, most)
                    .measured(fast.largest())
                    .at(fast.largestAtS()));
        }
    }

    private void entry(List<Criterion> criteria, boolean over, boolean due, Span span) {
        String source =
                "the entries are recommended, another one that stays on the protected side is allowed (AIM 5-3-8);"
                        + " sectors: ICAO Doc 8168 volume I (" + TASK + ")";
        FlightEvent.HoldEntered at = entered;
        Criterion.Asked asked = new Criterion.Asked(Criterion.Kind.HOLD_ENTRY, 1, at != null ? inHold : span, source);
        if (at != null) {
            Criterion measured =
                    asked.measured(wrongAtEntry ? 2 : at.bySector() ? 0 : 1).at(at.timeS());
            criteria.add(wrongAtEntry ? measured.titled("Hold, turned to the wrong side of it") : measured);
        } else if (over && (due || missed != null)) {
            criteria.add(asked.never());
        } else if (over && !legs.isEmpty()) {
            criteria.add(asked.notJudged("the turn outbound was not seen whole"));
        }
    }

    private void times(List<Criterion> criteria, List<String> notes, boolean over, boolean due, Span span) {
        Holding hold = holding.orElseThrow();
        if (hold.legMinutes().isEmpty()) {
            lengths(hold.legNm().orElseThrow(), criteria, over, due, span);
            return;
        }
        double wantedS = hold.legMinutes().getAsDouble() * 60;
        List<FlightEvent.HoldInbound> judged =
                legs.stream().filter(leg -> leg.n() >= TIMING.fromLeg()).toList();
        // The leg after the one of the entry shows how it was adjusted; the one after it whether that was right.
        double misledS = judged.stream().anyMatch(leg -> leg.n() > TIMING.fromLeg()) ? misledS() : 0;
        Optional<FlightEvent.HoldInbound> worst = judged.stream()
                .filter(leg -> leg.seconds().isPresent())
                .max(Comparator.comparingDouble(leg -> off(leg, wantedS, misledS)));
        double off = worst.map(leg -> off(leg, wantedS, misledS)).orElse(Double.NaN);
        boolean unseen = judged.stream().anyMatch(leg -> leg.seconds().isEmpty());
        String source = "the inbound leg takes its time (AIM 5-3-8; " + TASK + "); 10 s: common practice, no source";
        Criterion.Asked asked = new Criterion.Asked(Criterion.Kind.HOLD, TIMING.limitS(), inHold, source);
        if (unseen && !(off > TIMING.limitS())) {
            criteria.add(asked.notJudged("an inbound leg was not seen whole"));
        } else if (off > TIMING.limitS() && misledS == 0 && off - misledS() <= TIMING.limitS()) {
            if (over) {
                criteria.add(asked.notJudged(Words.say(
                        "the second inbound leg was %.0f s off: as much as the leg of this entry may mislead, and no leg"
                                + " after it shows whether the time was set right",
                        off)));
            }
        } else if (worst.isPresent()) {
            criteria.add(asked.measured(off).at(worst.get().timeS()));
        } else if (over && due && legs.isEmpty()) {
            criteria.add(new Criterion.Asked(Criterion.Kind.HOLD, TIMING.limitS(), span, source).never());
        } else if (over && !legs.isEmpty()) {
            notes.add("the time of the inbound leg is not judged: only the first was flown, which the ones after it are"
                    + " adjusted by");
        }
    }

    /** A distance needs no adjusting: judged from the leg of the entry on. */
    private void lengths(double wantedNm, List<Criterion> criteria, boolean over, boolean due, Span span) {
        String source =
                "the outbound leg ends where the DME or the distance along the course shows its length (AIM 5-3-8; "
                        + TASK + "); 1 NM: common practice, no source";
        Optional<FlightEvent.HoldInbound> worst = legs.stream()
                .filter(leg -> leg.outboundNm().isPresent())
                .max(Comparator.comparingDouble(leg -> offLength(leg, wantedNm)));
        double off = worst.map(leg -> offLength(leg, wantedNm)).orElse(Double.NaN);
        boolean unseen = legs.stream().anyMatch(leg -> leg.outboundNm().isEmpty());
        Criterion.Asked asked = new Criterion.Asked(Criterion.Kind.HOLD_LENGTH, LENGTH.limitNm(), inHold, source);
        if (unseen && !(off > LENGTH.limitNm())) {
            criteria.add(asked.notJudged("where a turn inbound began was not seen"));
        } else if (worst.isPresent()) {
            criteria.add(asked.measured(off).at(worst.get().turnedS().orElseThrow()));
        } else if (over && due) {
            criteria.add(new Criterion.Asked(Criterion.Kind.HOLD_LENGTH, LENGTH.limitNm(), span, source).never());
        }
    }

    private static double offLength(FlightEvent.HoldInbound leg, double wantedNm) {
        return Math.abs(leg.outboundNm().orElseThrow() - wantedNm);
    }

    private static double off(FlightEvent.HoldInbound leg, double wantedS, double misledS) {
        double off = Math.abs(leg.seconds().orElseThrow() - wantedS);
        return leg.n() == TIMING.fromLeg() ? Math.max(0, off - misledS) : off;
    }

    /**
     * How much the inbound leg after the entry may be longer or shorter than one of the pattern with the same time outbound,
     * seconds. A turn out from a heading x to the holding side of the inbound course ends R sin x farther out than a half
     * circle does, in still air; a teardrop and a parallel entry, or an entry that nobody saw, may end as far as R.
     */
    private double misledS() {
        double radianS = Turn.standardTurnS(overFixKt, Math.toDegrees(1));
        boolean direct = entered != null && entered.entry() == Holding.Entry.DIRECT;
        if (!direct || Double.isNaN(arrivedDeg)) {
            return radianS;
        }
        return radianS * Math.sin(Math.toRadians(Math.min(90, Math.max(0, arrivedDeg))));
    }

    /** How far it was turned the wrong way, degrees; not below what makes it a fault. */
    double wrongDeg() {
        return wrongDeg;
    }

    /** Whether that was before the first inbound leg; a turn in the pattern later is no matter of the entry. */
    boolean wrongAtEntry() {
        return wrongAtEntry;
    }

    /** How grave that is: from what makes it a fault to a half circle, which leads the wrong way altogether. */
    double wrongSeverity() {
        return Math.min(1, (wrongDeg - wrongFromDeg) / (HALF_CIRCLE_DEG - wrongFromDeg));
    }

    /** How long past the fix the aircraft was not outbound, seconds. */
    double missedS() {
        return missedS;
    }
}
