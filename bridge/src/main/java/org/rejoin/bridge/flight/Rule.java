package org.rejoin.bridge.flight;

import java.util.Locale;

import org.rejoin.bridge.geo.Turn;

/**
 * A rule of the tracker: its thresholds as numbers, and the words that a pilot reads, built from them. What a threshold means
 * those words say; its unit stands in its name, and a share is one of full scale.
 */
public sealed interface Rule {

    /**
     * A rule as a pilot reads it.
     *
     * @param title what it decides, a few words
     * @param text its conditions with their thresholds, without a full stop
     * @param source where the thresholds come from: document and paragraph, or "common practice, no source"
     */
    record Card(String title, String text, String source) {}

    /** As a pilot reads it. */
    Card card();

    /** {@return what it decides, a few words} */
    default String title() {
        return card().title();
    }

    /** {@return its conditions with their thresholds, without a full stop} */
    default String text() {
        return card().text();
    }

    /** {@return where the thresholds come from; document and paragraph, or "common practice, no source"} */
    default String source() {
        return card().source();
    }

    private static String n(double value) {
        return value == Math.rint(value)
                ? String.format(Locale.ROOT, "%.0f", value)
                : String.format(Locale.ROOT, "%.3f", value).replaceAll("0+$", "");
    }

    private static String percent(double share) {
        return n(Math.round(share * 1000) / 10.0) + " %";
    }
    /** The turn that times, leads and radii are worked out with. */
    record StandardTurn(double rateDegPerS, double bankDeg) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "standard turn",
                    n(rateDegPerS) + " degrees a second or " + n(bankDeg)
                            + " degrees of bank, whichever needs less bank",
                    "ICAO Doc 8168 (from memory)");
        }
    }

    /** How turning and the direction of flight are measured. */
    record Rates(double overS, double turningShare, double longestBaseS) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "rates of turn",
                    "of the heading where there is one, else of the track, as means over " + n(overS)
                            + " s; \"turning\" is more than " + percent(turningShare)
                            + " of the rate of a standard turn; track and rates are not judged where the positions are so coarse that they would take more than "
                            + n(longestBaseS) + " s",
                    "common practice, no source");
        }
    }

    /** Full-scale deflection to either side of a course. */
    record FullScale(double linearNm, double angularDeg, double closestNm) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "full scale",
                    (Double.isInfinite(linearNm) ? "" : n(linearNm) + " NM")
                            + (Double.isInfinite(linearNm) || Double.isInfinite(angularDeg)
                                    ? ""
                                    : ", but not more than ")
                            + (Double.isInfinite(angularDeg)
                                    ? ""
                                    : n(angularDeg) + " degrees of the radial, as wide as at " + n(closestNm)
                                            + " NM nearer than that"),
                    "AC 20-138 and RTCA DO-229 (2 NM en route), AIM 1-1-3 (10 degrees of a VOR); the nearest distance: common practice, no source");
        }
    }

    /** On a course. */
    record Established(
            double ofScale,
            double alongDeg,
            double heldS,
            double looseScale,
            double looseDeg,
            double looseS,
            double closingDeg,
            double closingNm,
            double awayDeg)
            implements Rule {

        /** The same within another share of full scale. */
        Established within(double share) {
            return new Established(
                    share,
                    alongDeg,
                    heldS,
                    Math.max(share, looseScale),
                    looseDeg,
                    looseS,
                    closingDeg,
                    closingNm,
                    awayDeg);
        }

        @Override
        public Card card() {
            return new Card(
                    "established",
                    "within " + percent(ofScale) + " of full scale and the mean track within " + n(alongDeg)
                            + " degrees of the course for " + n(heldS)
                            + " s, not turning at the end of them (only within " + n(closingNm)
                            + " NM of it while an assigned heading is turned to, or closes on the course by more than "
                            + n(closingDeg) + " degrees). Or turned onto it to within " + n(alongDeg)
                            + " degrees by track or heading, and then " + n(heldS)
                            + " s within " + percent(ofScale)
                            + " of full scale, not turning and going away from it by no more than "
                            + n(awayDeg) + " degrees. Or, off an assigned heading, " + n(looseS) + " s within "
                            + percent(looseScale) + " of full scale and the mean track within " + n(looseDeg)
                            + " degrees, the way over that time or over all of the stay no more than "
                            + n(alongDeg) + " degrees across the course",
                    "half scale: ICAO Doc 8168 Vol I (from memory); the rest common practice, no source");
        }
    }

    /** Outside the limit of a course once established on it. */
    record CourseDeviation(double ofScale) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "course deviation",
                    "more than " + percent(ofScale) + " of full scale off the course, once established",
                    "FAA-S-ACS-8C, IR.V.A.S6");
        }
    }

    /** Left the cleared route. */
    record RouteLeft(double ofScale, double turnedDeg, double turnedS, double marginNm, double backNm, double alongDeg)
            implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "off the cleared route",
                    "once established, with no clearance for it and before the turn at the end of the leg is due (its lead and "
                            + n(marginNm) + " NM): more than " + (ofScale == 1 ? "" : percent(ofScale) + " of ")
                            + "full scale off the leg, or turned off it and away from it by more than " + n(turnedDeg)
                            + " degrees for " + n(turnedS) + " s (toward it from more than " + n(backNm)
                            + " NM is a correction); beyond full scale also after that, while still along it ("
                            + n(alongDeg)
                            + " degrees) and not past its end",
                    "a clearance is to be followed: 14 CFR 91.123; the values: common practice, no source");
        }
    }

    /** An assigned heading not held. */
    record Heading(double reactionS, double limitDeg, double heldS) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "heading",
                    "more than " + n(limitDeg) + " degrees off for " + n(heldS) + " s; from " + n(reactionS)
                            + " s and the time of a standard turn, the way that was ordered, after the clearance until the turn onto the course; who turned the other way has that time from where he turned back",
                    "the limit: FAA-S-ACS-8C, IR.V.B.S7; reaction as in turn design, ICAO Doc 8168 (from memory); the time: common practice, no source");
        }
    }

    /**
     * Where the turn onto the course takes the place of the assigned heading.
     *
     * @param leavingDeg off the heading by this much it has begun, degrees
     */
    record TurnOntoCourse(
            double ofScale, double turningDegPerS, double leavingDeg, double parallelDeg, double reciprocalDeg)
            implements Rule {

        /**
         * How near the line the turn onto it may begin, nautical miles: the lead of that turn and some of the scale.
         *
         * @param closingDeg between the course and where the heading leads, degrees
         */
        public double nearNm(double groundSpeedKt, double closingDeg, double fullScaleNm) {
            return Turn.standardTurnLeadNm(groundSpeedKt, closingDeg) + ofScale * fullScaleNm;
        }

        @Override
        public Card card() {
            return new Card(
                    "turn onto the course",
                    "off the heading toward the course, within the lead of that turn and " + percent(ofScale)
                            + " of full scale of it: from there on the heading is not judged. Farther out nothing is judged while such a turn goes on ("
                            + n(turningDegPerS) + " degrees a second), nor while the track is within " + n(parallelDeg)
                            + " degrees of the course, once the heading was flown (steady within 5 degrees of it; by who was on it when it was said not before the time to react and that of a mean); near the line a turn the other way, onto the reciprocal ("
                            + n(reciprocalDeg)
                            + " degrees) or back along the course, is not judged as heading either, nor is the way to the line of who has turned early. Who has left the heading and not come to the line is judged again, once he is farther from it than that. Who never flew the heading has left it where he turns off it, or is off it by its limit more than he was at his nearest, not turning",
                    "common practice, no source");
        }
    }

    /** An assigned heading taken up. */
    record HeadingTakenUp(double withinDeg, double heldS) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "heading taken up",
                    "within " + n(withinDeg) + " degrees for " + n(heldS) + " s, not turning at the end of them",
                    "FAA-S-ACS-8C, IR.V.A.S5; the time: common practice, no source");
        }
    }

    /**
     * An assigned altitude not held.
     *
     * @param readBackS who is level has so much more than the time to react, to read it back, seconds
     */
    record Altitude(
            double limitFt,
            double heldS,
            double reactionS,
            double readBackS,
            double rateFpm,
            double levelOffS,
            double levelOffTimes)
            implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "altitude",
                    "more than " + n(limitFt) + " ft off, a fault after " + n(heldS)
                            + " s; from where the altitude is crossed, or the level-off should be over (straight to a lead of "
                            + percent(levelOffS / 60) + " of the rate of climb, then " + n(levelOffS * levelOffTimes)
                            + " s), or " + n(reactionS + readBackS)
                            + " s (to read it back and begin) and the time to come as near as that at " + n(rateFpm)
                            + " ft a minute have gone by, whichever is first. Who goes the other way when it is said is carried on for "
                            + n(reactionS)
                            + " s to react and a level-off, and has a second one to begin the way back. Until a crossing ahead is made that it would break, all between the two altitudes is as good. A descent is at the pilot's discretion up to a crossing on its way, \"at or below\" too",
                    "limit: FAA-S-ACS-8C, IR.V.A.S5; 500 ft a minute and the crossing: AIM 4-4-10, Instrument Procedures Handbook, FAA-H-8083-16; the lead: Instrument Flying Handbook, FAA-H-8083-15B, chapter 7; the times: common practice, no source");
        }
    }

    /** Where one altitude or speed of a clearance gives way to the next. */
    record ChangeOver(
            double aroundS, double aroundNm, double besideNm, double aroundFt, double scaleShare, double alongDeg)
            implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "the next altitude or speed",
                    "in force from where the aircraft is established, from the fix, radial, distance or time said. Neither it"
                            + " nor the one before is judged where the pilot may take the place for passed: from "
                            + n(aroundS) + " s or " + n(aroundNm) + " NM before it (" + n(aroundFt)
                            + " ft of an altitude), beside a fix passed within " + n(besideNm) + " NM, or within "
                            + percent(scaleShare) + " of full scale with the track within " + n(alongDeg)
                            + " degrees of the course; " + n(aroundS)
                            + " s after it the time to react begins. Past a crossing that is said before it; behind \"then\" once what is said before it has been reached or should have been. Where the place cannot be told nothing is judged",
                    "half scale: ICAO Doc 8168 Vol I (from memory); the rest common practice, no source");
        }
    }

    /** An assigned speed not held. */
    record Speed(
            double limitKt, double heldS, double reactionS, double rateKtPerS, double levelOffS, double levelOffTimes)
            implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "speed",
                    "more than " + n(limitKt) + " kt indicated off, a fault after " + n(heldS)
                            + " s; from where the speed is passed, or its change should be over ("
                            + n(levelOffS * levelOffTimes) + " s after it came close), or " + n(reactionS)
                            + " s and the time to come as near as that at " + n(rateKtPerS)
                            + " kt a second have gone by, whichever is first, and longer for who gains or loses speed the other way, as of an altitude; \"or greater\" and \"do not exceed\" count on one side only; nothing is said where the feed has no airspeed",
                    "limit: FAA-S-ACS-8C, IR.V.B.S7; the rate and the times: common practice, no source");
        }
    }

    /** A crossing of the course worth a line in the log. */
    record CrossingLogged(double angleDeg, double offNm) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "crossing logged",
                    "more than " + n(angleDeg) + " degrees to the line, after at least " + n(offNm) + " NM off it",
                    "common practice, no source");
        }
    }

    /**
     * Crossed the course and did not turn onto it.
     *
     * @param reversalS a turn onto the reciprocal is waited for so long, seconds
     * @param reversingDeg turned away by this much it is one, degrees
     */
    record FlownThrough(
            double angleDeg,
            double beforeS,
            double afterS,
            double turnDeg,
            double seenS,
            double reversalS,
            double reversingDeg)
            implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "flown through",
                    "crossed at more than " + n(angleDeg) + " degrees, no turn toward the course begun between "
                            + n(beforeS) + " s before and " + n(afterS)
                            + " s after it, and carried past the limit of the intercept; a turn is one that brings the mean heading "
                            + n(turnDeg) + " degrees closer to the course and stays so; told once this can be seen ("
                            + n(seenS)
                            + " s)",
                    "the error is described in the Instrument Flying Handbook, FAA-H-8083-15B, chapter 9; the values: common practice, no source");
        }
    }

    /** Carried past the course to intercept. */
    record Overshoot(double loggedNm, double limitNm, double ofScale) implements Rule {
        /** How far the aircraft may be carried past the course. */
        public double limitNm(double fullScaleNm) {
            return Math.min(limitNm, ofScale * fullScaleNm);
        }

        /** The same with another limit. */
        Overshoot beyond(double nm, double share) {
            return new Overshoot(loggedNm, nm, share);
        }

        @Override
        public Card card() {
            return new Card(
                    "overshoot",
                    "told from " + n(loggedNm) + " NM on the far side; the limit of the intercept is " + n(limitNm)
                            + " NM or " + percent(ofScale) + " of full scale, whichever is less",
                    "three quarters: FAA-S-ACS-8C, IR.V.A.S6; the rest common practice, no source");
        }
    }

    /** Rolled out short of the course. */
    record TurnedEarly(double closingDeg, double alongDeg, double ofScale, double heldS) implements Rule {

        /** The same beyond another share of full scale. */
        TurnedEarly beyond(double share) {
            return new TurnedEarly(closingDeg, alongDeg, share, heldS);
        }

        @Override
        public Card card() {
            return new Card(
                    "turned early",
                    "closing on the course (" + n(closingDeg) + " degrees), then parallel to it within " + n(alongDeg)
                            + " degrees, more than " + percent(ofScale) + " of full scale short of it, for " + n(heldS)
                            + " s, the turns there and away included, not turning at the end of them; where a heading is"
                            + " assigned, once it was flown",
                    "common practice, no source");
        }
    }

    /** Established on the reciprocal of the course. */
    record WrongDirection(double reciprocalDeg, double ofScale, double heldS, double reactionS) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "wrong direction",
                    "within " + percent(ofScale) + " of full scale, the mean track within " + n(reciprocalDeg)
                            + " degrees of the reciprocal and not turning, for " + n(heldS)
                            + " s; who flies it when cleared has " + n(reactionS)
                            + " s and the time of a standard half turn",
                    "the error is described in the Instrument Flying Handbook, FAA-H-8083-15B, chapter 9; the values: common practice, no source");
        }
    }

    /** Tracked a course that was not cleared. */
    record OtherCourse(
            double apartDeg,
            double heldS,
            double steadyDeg,
            double alongDeg,
            double onHeadingDeg,
            double turnedDeg,
            double closeNm,
            double reachNm)
            implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "another course tracked",
                    "until the end of the leg of the cleared course: for " + n(heldS) + " s along (" + n(alongDeg)
                            + " degrees) another radial of the cleared station, or of the one at the end of the leg of a cleared airway, "
                            + n(apartDeg)
                            + " degrees or more from the cleared one, or within half scale of the radial of the same number of another station within "
                            + n(reachNm)
                            + " NM, or a segment of an airway of the chart that is no part of the route; the track over that time and over the later half of it stayed within "
                            + n(steadyDeg)
                            + " degrees of it (and within a third of the angle between the radials); more than half scale from the cleared course, more than "
                            + n(onHeadingDeg) + " degrees off the heading that meets it, more than " + n(closeNm)
                            + " NM from the station, and once turned " + n(turnedDeg)
                            + " degrees from the track at the clearance",
                    "common practice, no source; the reach: largest service volume, AIM 1-1-8");
        }
    }

    /** Chasing the needle. */
    record Weaving(int crossings, double windowS, double swingDeg, double ofScale, double flatterDeg) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "weaving",
                    n(crossings) + " crossings in " + n(windowS / 60) + " minutes, the heading swinging by more than "
                            + n(swingDeg) + " degrees and the aircraft more than " + percent(ofScale)
                            + " of full scale off before each, from where the course was first joined; crossings steeper than "
                            + n(flatterDeg) + " degrees do not count",
                    "the error is described in the Instrument Flying Handbook, FAA-H-8083-15B, chapter 9; the values: common practice, no source");
        }
    }

    /** Passed a fix. */
    record FixSequenced(double begunDeg, double reachNm) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "fix sequenced",
                    "on the bisector of its legs once the turn has begun (" + n(begunDeg)
                            + " degrees) or is due (its lead), else abeam; who turned before that passes it on the new course, where the turn is of more than 90 degrees, or with his track square to the old course, where a heading follows; within "
                            + n(reachNm)
                            + " NM; not while on an assigned heading that has not met the leg",
                    "RTCA DO-236 (from memory); half an airway: FAA Order JO 7400.2 chapter 20; the angle: common practice, no source");
        }
    }

    /** How the turn at a fix was led. */
    record TurnAtFix(
            double leastDeg,
            double mostDeg,
            double earlyShare,
            double lateShare,
            double alongDeg,
            double heldS,
            double earliestScale)
            implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "turn at the fix",
                    "from along the old course (" + n(alongDeg) + " degrees, not turning), begun not more than "
                            + (earliestScale == 1 ? "" : percent(earliestScale) + " of ")
                            + "full scale before its lead, nor beyond full scale to the side, nor farther beyond the fix than where a fix is sequenced; turns of "
                            + n(leastDeg) + " to " + n(mostDeg)
                            + " degrees; where the turn began is worked back from " + percent(earlyShare) + " and "
                            + percent(lateShare)
                            + " of it; lead R tan(turn/2), R of the standard turn; over when within "
                            + n(alongDeg) + " degrees of the new course for " + n(heldS)
                            + " s; the fly-by area lies between the courses and the led arc, with the limit of the intercept on both sides",
                    "area: RTCA DO-236 (from memory); lead: geometry of a tangent arc; full scale is as much as a fix may be off along the track: AC 90-100A (from memory); the rest common practice, no source");
        }
    }

    /**
     * Turned the wrong way, at a fix or where ATC ordered a turn.
     *
     * @param alignedDeg from this close to the old course, degrees
     * @param eitherWayDeg course changes below this, or this close to a half turn, have no wrong way, degrees
     * @param orderedDeg the other way than ATC ordered, degrees
     */
    record WrongTurn(
            double wrongDeg,
            double beforeLeadNm,
            double watchedS,
            double alignedDeg,
            double eitherWayDeg,
            double orderedDeg,
            double pastDeg)
            implements Rule {

        /** {@return whether so small a course change, or one so close to a half turn, may be made to either side} */
        public boolean eitherWay(double turnDeg) {
            return Math.abs(turnDeg) < eitherWayDeg || halfTurn(turnDeg);
        }

        /** {@return whether the course change is so close to a half turn that it may be made to either side} */
        public boolean halfTurn(double turnDeg) {
            return Math.abs(turnDeg) > 180 - eitherWayDeg;
        }

        /**
         * How far a turn has gone on past the next course, or to the other side of the old one; where it may be made to either
         * side, past the next course on that side.
         *
         * @param turnDeg from the old course to the next, right positive, degrees, -180 to 180
         * @param turnedDeg from the old course, right positive, counted on past the reciprocal, degrees
         * @return degrees; less than nothing before that
         */
        public double beyondDeg(double turnDeg, double turnedDeg) {
            double onWay = turnDeg < 0 ? -turnedDeg : turnedDeg;
            double onOther = -onWay - (halfTurn(turnDeg) ? 360 - Math.abs(turnDeg) : 0);
            return Math.max(onWay - Math.abs(turnDeg), onOther);
        }

        @Override
        public Card card() {
            return new Card(
                    "wrong turn",
                    n(wrongDeg) + " degrees the wrong way and away from the old line, from " + n(beforeLeadNm)
                            + " NM before the lead to " + n(watchedS)
                            + " s after the fix; or turned on by " + n(pastDeg)
                            + " degrees past the next course, or to the other side of the old one, without having been established"
                            + " on the next, however long it takes. Where a turn to a heading or direct is ordered left or right, "
                            + n(orderedDeg)
                            + " degrees the other way (who is turning so when it is said goes on while he reacts)",
                    "turn left or right as ordered: FAA Order JO 7110.65, 5-6-2, and 14 CFR 91.123; the values: common practice, no source");
        }
    }

    /** Flew past a fix on the old course. */
    record SequenceMissed(double oldCourseDeg, double afterS) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "sequence missed",
                    "within " + n(oldCourseDeg) + " degrees of the old course " + n(afterS)
                            + " s after passing abeam, where the route turns by more than that and no wrong turn was made",
                    "common practice, no source");
        }
    }

    /**
     * Where the course of a direct begins.
     *
     * @param closeNm nearer to the fix its bearing swings too fast, nautical miles
     */
    record Direct(double aimedDeg, double reactionS, double closeNm, double ignoredS, double lateS, double lateShare)
            implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "direct",
                    "the course begins where the aircraft points at the fix (" + n(aimedDeg)
                            + " degrees, not turning), at the latest " + n(2 * reactionS)
                            + " s and the time of a standard turn, the way that was ordered, after the clearance, or after the heading is left that is flown until then. It is taken up within the limit of the intercept; whoever goes beside it has not taken it up, and there is nothing to fly through or to fall short of. Whoever has not taken it up "
                            + n(ignoredS)
                            + " s after its course began has not gone direct. Begun late it is taken up from where the aircraft has pointed at the fix for "
                            + n(lateS)
                            + " s, the mean track leading past it within the limit of the intercept, or within "
                            + percent(lateShare) + " of the distance beside the course",
                    "common practice, no source");
        }
    }

    /** On a DME arc. */
    record Arc(double limitNm) implements Rule {

        /** {@return full scale on the arc, so much that the limit is the usual share of it, nautical miles} */
        public double fullScaleNm() {
            return limitNm / ofScale();
        }

        /** {@return the limit as a share of full scale there} */
        public double ofScale() {
            return Limits.INSTRUMENT_RATING.courseScale();
        }

        @Override
        public Card card() {
            return new Card(
                    "on an arc",
                    "the course limit is " + n(limitNm)
                            + " NM by what the DME shows (slant range, where the feed has an altitude; else over the ground); full scale is so much that the limit is the usual share of it. Within the limit an arc is met, on either side: there one is established, and beyond it one has overshot or turned early",
                    "FAA-S-ACS-8C, IR.V.A.S6; DME along the straight line: Instrument Flying Handbook, FAA-H-8083-15B, chapter 9");
        }
    }

    /** How a hold is entered. */
    record HoldEntered(double outboundDeg, double heldS, double directDeg, double teardropDeg) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "hold entered",
                    "past the fix and outbound: the track within " + n(outboundDeg)
                            + " degrees of the reciprocal of the inbound course for " + n(heldS)
                            + " s, not turning; or turned through that reciprocal and on, without turning back, to within "
                            + n(outboundDeg)
                            + " degrees of the inbound course: a tail wind may leave little or nothing to fly outbound. Direct after a turn of "
                            + n(directDeg)
                            + " degrees or more the way of the pattern; teardrop where the track goes away by "
                            + n(teardropDeg)
                            + " degrees or more toward the holding side; else parallel. By the heading on arrival direct from 70 degrees left to 110 right of the inbound course, teardrop from 110 to 180 right, else parallel (left turns mirrored); within 5 degrees of a boundary either. Where nothing was flown outbound, that heading alone tells a teardrop from a direct entry",
                    "entries: AIM 5-3-8; sectors and 5 degrees: ICAO Doc 8168 volume I (from memory); how they are told apart: common practice, no source");
        }
    }

    /** A hold that is not entered. */
    record HoldNotEntered(double reactionS, double turnDeg, double plusS) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "hold not entered",
                    "not outbound " + n(reactionS) + " s, the time of a standard turn of " + n(turnDeg)
                            + " degrees and " + n(plusS)
                            + " s after passing the fix; who has turned through the outbound direction has the time of a half circle and "
                            + n(plusS) + " s from there",
                    "longest turn of a direct entry: ICAO Doc 8168 volume I (from memory), 70 degrees and a half circle; the times: common practice, no source");
        }
    }

    /** Turned to the side of a hold that is not protected as the pattern is. */
    record HoldWrongSide(double wrongDeg, double parallelDeg) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "hold, wrong side",
                    "turned " + n(wrongDeg)
                            + " degrees the wrong way: away from the way of the pattern at the fix or at the end of the outbound leg, away from the holding side at the end of the outbound leg of a parallel entry; at the fix of the entry, where a parallel entry turns that way, "
                            + n(parallelDeg)
                            + " (not judged there where the heading on arrival asks for one). Where the hold may be left for its time of further clearance a turn at the fix counts once it has led outbound again",
                    "turns of the pattern: AIM 5-3-8; the angles: common practice, no source");
        }
    }

    /**
     * The inbound leg of a hold.
     *
     * @param fromLeg judged from this one on
     */
    record HoldInbound(double alongDeg, double limitS, int fromLeg) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "inbound leg",
                    "from the end of the turn inbound (not turning, within " + n(alongDeg)
                            + " degrees of the course) to the fix, within " + n(limitS)
                            + " s of its time; it has none where one of the two was not seen. The first is told and not judged: the first outbound leg is flown for its time, the ones after it are adjusted. After an entry that is not along the inbound course it does not tell their time: the second is off by that much less, and alone tells nothing up to there (radius of the standard turn times the sine of the angle of arrival, of a direct entry from the holding side; all of the radius of a teardrop or parallel one; as time)",
                    "1 minute at or below 14,000 ft, 1.5 above, later legs adjusted: AIM 5-3-8; " + n(limitS)
                            + " s: common practice, no source");
        }
    }

    /** The outbound leg of a hold whose legs are a distance. */
    record HoldOutbound(double limitNm) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "outbound leg of miles",
                    "its length where the turn inbound begins, by the DME (slant range from a station, where the feed has an altitude) or by the distance along the inbound course, whichever is nearer to what was said, within "
                            + n(limitNm)
                            + " NM; it has none where the beginning of that turn was not seen. Judged from the entry on: a distance needs no adjusting",
                    "the DME or along-track distance ends the outbound leg: AIM 5-3-8; " + n(limitNm)
                            + " NM: common practice, no source");
        }
    }

    /** Left a hold without a clearance. */
    record HoldLeft(double times, double plusNm, double earlyS) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "hold left",
                    "with the next clearance, or at the time of further clearance, not more than " + n(earlyS)
                            + " s before it, or later; else it is a route left: farther from the fix than " + n(times)
                            + " times the outbound leg and " + n(plusNm)
                            + " NM, or flown on past the fix as in a hold not entered",
                    "a clearance is to be followed: 14 CFR 91.123; a clearance limit is left at the time of further clearance:"
                            + " 14 CFR 91.185 (c)(3); the values: common practice, no source");
        }
    }

    /** An altitude at a crossing. */
    record AltitudeAtCrossing(double limitFt) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "crossing",
                    "the altitude where a fix is passed, or a place abeam; more than " + n(limitFt)
                            + " ft off, on the side that counts, is missed",
                    "FAA-S-ACS-8C, IR.V.B.S7 (100 ft)");
        }
    }

    /** Past the clearance limit. */
    record ClearanceLimit(double pastNm) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "clearance limit",
                    "more than " + n(pastNm)
                            + " NM from it, ahead of it or to its side, without a clearance and before the time of further clearance: a route left. Who turns and holds on the course he came on waits for his clearance",
                    "hold at the limit on the course of arrival: AIM 5-3-8; the distance: common practice, no source");
        }
    }

    /** When what an amendment asks for is due. */
    record Due(double afterS, double times, double plusS) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "due",
                    "the course was crossed, or its fix passed abeam, more than " + n(afterS)
                            + " s ago (what follows the fix is not, while he would be on it in as long a time, or is on it and not yet established); or another course was tracked; or the end of its leg was passed outside full scale; or "
                            + n(times) + " times the predicted time and " + n(plusS)
                            + " s have gone by; of an altitude or a speed, the time to reach it. An altitude or a speed is waited for until it is reached, alone, in turn, or when all else was done, but no longer than "
                            + n(afterS) + " s after it was due. What was not due is not judged",
                    "common practice, no source");
        }
    }

    /** Where the graded part of an amendment ends. */
    record GradedPart(double afterS, double judgedS) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "end of the graded part",
                    n(afterS)
                            + " s after the amendment is complete or an altitude or speed is waited for no longer, or when the turn at the end of the intercepted leg is over, or what was reached has been judged for "
                            + n(judgedS) + " s, if that is later",
                    "common practice, no source");
        }
    }

    /** Nothing received. */
    record FeedLost(double timeoutS) implements Rule {

        /** A DIS sender may be silent for 5 s, and is timed out at 2.4 times that (IEEE 1278.1). */
        public static final FeedLost DIS = new FeedLost(12);

        /** Any other feed (common practice, no source). */
        public static final FeedLost OTHER = new FeedLost(5);

        @Override
        public Card card() {
            String dis = "IEEE 1278.1: 2.4 times the 5 s heartbeat";
            return equals(OTHER)
                    ? new Card(
                            "feed lost",
                            "no sample for " + n(timeoutS) + " s, of a DIS feed for " + n(DIS.timeoutS) + " s",
                            "DIS: " + dis + "; others: common practice, no source")
                    : new Card("feed lost", "no sample for " + n(timeoutS) + " s", dis);
        }
    }

    /** The sender says that the simulation is paused. */
    record PauseFlag() implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "pause, as the sender says",
                    "the sender says that the simulation stands still",
                    "the simulator's own word");
        }
    }

    /**
     * The simulation stands still without saying so.
     *
     * @param sameNm the same to within this, nautical miles
     */
    record StandingStill(double heldS, double flyingKt, double sameNm) implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "pause, standing still",
                    "the same position for " + n(heldS) + " s after flying at " + n(flyingKt) + " kt or more",
                    "common practice, no source");
        }
    }

    /**
     * The aircraft was set elsewhere.
     *
     * @param assumedKt taken where no speed is reported, knots
     * @param leastNm set elsewhere by less, the aircraft has only jumped with a slow computer: half of the limit of an intercept,
     *     NM
     */
    record Moved(
            double baseS,
            double times,
            double plusKt,
            double assumedKt,
            double leastNm,
            double startNm,
            double strayS,
            double climbFtPerS,
            double turnDegPerS)
            implements Rule {
        @Override
        public Card card() {
            return new Card(
                    "repositioned",
                    "farther than " + n(times) + " times the reported speed and " + n(plusKt)
                            + " kt explain, over at least " + n(baseS)
                            + " s, and stayed there for as long, and off the way flown for " + n(strayS)
                            + " s; the attempt before is closed as it stands. By less than " + n(leastNm)
                            + " NM beside where it was due it has only jumped, and the flight goes on. Within "
                            + n(startNm)
                            + " NM of where the flight began the exercise starts again, elsewhere the clearances in force are given again. Samples that lie off and do not stay are stray: seen on its way again within "
                            + n(strayS)
                            + " s, the flight goes on without them; so it does without one that leaps in altitude by more than "
                            + n(climbFtPerS) + " ft a second, or in track by more than " + n(turnDegPerS)
                            + " degrees a second, and is back at the next",
                    "common practice, no source; " + n(strayS) + " s: two samples at the heartbeat of IEEE 1278.1");
        }
    }
}
