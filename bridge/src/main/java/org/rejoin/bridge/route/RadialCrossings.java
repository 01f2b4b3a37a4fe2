package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.GeodesicLine;

/** Where a radial crosses the legs that may be joined, which of the crossings is meant, and why there is none. */
record RadialCrossings(AmendmentDraft draft, AirwayPath path) {

    /** A leg missed by more than this was not meant, nautical miles (common practice, no source). */
    private static final double WORTH_TELLING_NM = 100;

    /** A crossing of the radial (first) with a leg (second). */
    record Found(AirwayPath.Step step, Crossing crossing) {}

    /** Crossings of the radial, ahead of the station, with the legs that may be joined. */
    List<Found> of(GeodesicLine outbound) {
        List<Found> found = new ArrayList<>();
        for (AirwayPath.Step step : path.steps()) {
            outbound.crossing(step.line())
                    .filter(crossing -> Intercepts.within(crossing.alongSecondNm(), step.line())
                            && crossing.alongFirstNm() > 0.01
                            && crossing.alongFirstNm() <= RadialAmendment.RADIAL_REACH_NM)
                    // At a point of the airway both neighbours are met: one is enough.
                    .filter(crossing -> found.stream()
                            .noneMatch(other ->
                                    Math.abs(other.crossing().alongFirstNm() - crossing.alongFirstNm()) < 0.05))
                    .ifPresent(crossing -> found.add(new Found(step, crossing)));
        }
        found.sort(Comparator.comparingDouble(each -> each.crossing().alongFirstNm()));
        return found;
    }

    /** Of several crossings the first one ahead of where the radial is met. */
    Found choose(List<Found> found, Course course) {
        GeodesicLine outbound = course.outbound();
        if (found.size() == 1) {
            return found.get(0);
        }
        double met = draft.heading
                .flatMap(plan -> plan.path().crossing(outbound))
                .filter(crossing -> crossing.alongFirstNm() > 0 && crossing.alongSecondNm() > 0)
                .map(Crossing::alongSecondNm)
                .orElseGet(() -> outbound.offset(draft.situation.position()).alongTrackNm());
        Found chosen = course.direction() == Course.Direction.FROM
                ? found.stream()
                        .filter(each -> each.crossing().alongFirstNm() > met)
                        .findFirst()
                        .orElse(found.get(found.size() - 1))
                : found.stream()
                        .filter(each -> each.crossing().alongFirstNm() < met)
                        .reduce((first, second) -> second)
                        .orElse(found.get(0));
        StringBuilder others = new StringBuilder();
        found.stream()
                .filter(each -> !each.equals(chosen))
                .forEach(each -> others.append(String.format(
                        Locale.ROOT,
                        " %s at %.1f NM",
                        AirwayPath.name(each.step().segment()),
                        each.crossing().alongFirstNm())));
        draft.choice(
                "the %s crosses the airway more than once; taken is the first crossing ahead, %.1f NM from %s on %s; the"
                        + " others:%s",
                course.name(),
                chosen.crossing().alongFirstNm(),
                course.station().ident(),
                AirwayPath.name(chosen.step().segment()),
                others);
        return chosen;
    }

    /** Why a line does not lead to the airway, with the meetings that a slip could explain. */
    String whyNone(Course course) {
        StringBuilder why = new StringBuilder("the " + course.name() + " does not cross " + path.name());
        for (AirwayPath.Step step : path.steps()) {
            course.outbound()
                    .crossing(step.line())
                    .filter(crossing -> Math.abs(crossing.alongFirstNm()) <= 2 * RadialAmendment.RADIAL_REACH_NM)
                    .flatMap(crossing -> miss(crossing, step))
                    .ifPresent(how -> why.append("; its line meets ")
                            .append(AirwayPath.name(step.segment()))
                            .append(how));
        }
        return why.toString();
    }

    /** By how much a crossing is none; nothing where it is too far off to be worth telling. */
    private static Optional<String> miss(Crossing crossing, AirwayPath.Step step) {
        double past = crossing.alongSecondNm() - step.line().lengthNm();
        if (Math.max(past, -crossing.alongSecondNm()) > WORTH_TELLING_NM) {
            return Optional.empty();
        }
        if (crossing.alongFirstNm() < 0) {
            return Optional.of(
                    String.format(Locale.ROOT, " %.1f NM on the other side of the station", -crossing.alongFirstNm()));
        }
        if (past > 0) {
            return Optional.of(String.format(
                    Locale.ROOT, " %.1f NM beyond %s", past, step.segment().to().ident()));
        }
        if (crossing.alongSecondNm() < 0) {
            return Optional.of(String.format(
                    Locale.ROOT,
                    " %.1f NM before %s",
                    -crossing.alongSecondNm(),
                    step.segment().from().ident()));
        }
        return Optional.of(String.format(Locale.ROOT, " %.0f NM out", crossing.alongFirstNm()));
    }
}
