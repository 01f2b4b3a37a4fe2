package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Variation;

/**
 * Shapes B and C: a radial (or an NDB bearing) to intercept, that leads to an airway. A station on the airway is flown
 * TO; a station off it FROM, to the computed fix where the radial crosses the airway. Explicit words win.
 */
final class RadialAmendment {

    /** How far out a radial is followed, nautical miles; twice the largest service volume. */
    static final double RADIAL_REACH_NM = 300;

    private final Chart chart;
    private final AmendmentDraft draft;
    private final AirwayPath path;

    RadialAmendment(Chart chart, AmendmentDraft draft, AirwayPath path) {
        this.chart = chart;
        this.draft = draft;
        this.path = path;
    }

    void work(Optional<Instruction.InterceptRadial> radial, Optional<Instruction.InterceptBearing> bearing)
            throws ClearanceException {
        if (radial.isPresent()) {
            Instruction.InterceptRadial said = radial.get();
            Declination declination = said.station()
                    .declination()
                    .orElseThrow(() -> new ClearanceException(
                            ClearanceException.Code.CANNOT_BE_WORKED_OUT,
                            said.station().ident() + " has no station declination on chart " + chart.name()
                                    + ", so its radials have no direction"));
            TrueDirection azimuth = said.radial().toTrue(declination);
            draft.step(
                    "radial from true north",
                    "true azimuth at the station = radial + station declination",
                    "%s radial %05.1f %+.2f = %06.2f true",
                    said.station().ident(),
                    said.radial().deg(),
                    declination.eastDeg(),
                    azimuth.deg());
            work(said.station(), said.radial(), azimuth, said.sense());
        } else {
            Instruction.InterceptBearing said = bearing.orElseThrow();
            Variation variation = draft.situation.variationAt(said.station().position());
            TrueDirection azimuth = said.bearing().toTrue(variation);
            draft.step(
                    "bearing from true north",
                    "true = magnetic + today's variation (an NDB has no alignment of its own)",
                    "%05.1f from %s %+.4f = %08.4f true",
                    said.bearing().deg(),
                    said.station().ident(),
                    variation.eastDeg(),
                    azimuth.deg());
            work(said.station(), new Radial(said.bearing().deg()), azimuth, said.sense());
        }
    }

    private void work(Station station, Radial radial, TrueDirection azimuth, Instruction.Sense sense)
            throws ClearanceException {
        GeodesicLine outbound = GeodesicLine.from(station.position(), azimuth, RADIAL_REACH_NM);
        int onPath = path.indexOf(station);
        boolean inbound = sense == Instruction.Sense.INBOUND || (sense == Instruction.Sense.UNSAID && onPath >= 0);
        if (inbound && onPath >= 0) {
            if (sense == Instruction.Sense.UNSAID) {
                crossings(outbound).stream()
                        .filter(found -> found.crossing().alongFirstNm() > 1)
                        .findFirst()
                        .ifPresent(found -> draft.warn(
                                Warning.Code.CHOICE_MADE,
                                "%s is on the route, so its %03.0f radial is flown inbound, TO the station; outbound it"
                                        + " would meet %s %.1f NM out. Say \"outbound\" if that was meant",
                                station.ident(),
                                radial.deg(),
                                name(found.step().segment()),
                                found.crossing().alongFirstNm()));
            }
            toStation(station, radial, outbound, onPath);
        } else {
            toCrossing(station, radial, outbound, inbound ? Course.Direction.TO : Course.Direction.FROM);
        }
    }

    /** Shape B: inbound to a station on the route. */
    private void toStation(Station station, Radial radial, GeodesicLine outbound, int onPath)
            throws ClearanceException {
        draft.course = Optional.of(new Course(station, radial, Course.Direction.TO, outbound));
        draft.step(
                "course to set",
                "TO the station: radial + 180",
                "%03.0f + 180 = %03.0f TO %s",
                radial.deg(),
                radial.reciprocal().deg(),
                station.ident());
        GeodesicLine inboundLine = outbound.reversed();
        RadialMeeting.meet(draft, inboundLine, RADIAL_REACH_NM);
        double out = draft.intercept
                .map(met -> RADIAL_REACH_NM - met.alongCourseNm())
                .orElseGet(() ->
                        Math.max(1, outbound.offset(draft.situation.position()).alongTrackNm()));
        draft.courseLeg = draft.legs.size();
        draft.legs.add(new Leg.CourseToFix(
                station,
                radial.reciprocal(),
                GeodesicLine.between(outbound.pointAt(Math.max(out, 0.05)), station.position())));
        int begins = draft.legs.size();
        draft.legs.addAll(path.legsFromPoint(onPath));
        draft.markJoin(begins, path.ident());
        draft.markResume(begins);
        warnServiceVolume(station, out);
        draft.intercept.ifPresent(met -> {
            draft.step(
                    "to go on the course",
                    "distance along the geodesic from the intercept to the station",
                    "%.4f NM to %s",
                    out,
                    station.ident());
            Intercepts.roomBefore(draft, met, out, station.ident());
        });
    }

    /** Shape C: along a radial to where it crosses the airway. */
    private void toCrossing(Station station, Radial radial, GeodesicLine outbound, Course.Direction direction)
            throws ClearanceException {
        List<Found> found = crossings(outbound);
        if (found.isEmpty()) {
            throw new ClearanceException(
                    ClearanceException.Code.RADIAL_DOES_NOT_CROSS_AIRWAY, whyNoCrossing(station, radial, outbound));
        }
        draft.course = Optional.of(new Course(station, radial, direction, outbound));
        GeodesicLine flown = direction == Course.Direction.FROM ? outbound : outbound.reversed();
        Found fix = choose(found, outbound, station, radial, direction);
        double out = fix.crossing().alongFirstNm();
        Radial course = draft.course.get().courseToSet();
        draft.step(
                "course to set",
                direction == Course.Direction.FROM ? "FROM the station: the radial" : "TO the station: radial + 180",
                "%03.0f %s %s",
                course.deg(),
                direction,
                station.ident());
        ComputedFix computed = computedFix(station, radial, fix, direction);
        draft.computedFix = Optional.of(computed);
        Fix at = computed.fix();
        FixWorking.describe(draft, computed, fix.crossing(), fix.step().line());
        double fixAlong = direction == Course.Direction.FROM ? out : RADIAL_REACH_NM - out;
        RadialMeeting.meet(draft, flown, fixAlong);
        double joined = draft.intercept
                .map(Intercept::alongCourseNm)
                .orElseGet(() ->
                        Math.max(0, flown.offset(draft.situation.position()).alongTrackNm()));
        draft.courseLeg = draft.legs.size();
        if (direction == Course.Direction.FROM) {
            draft.legs.add(new Leg.FixOutbound(
                    station,
                    at,
                    course,
                    GeodesicLine.from(outbound.start(), outbound.initialCourse(), Math.max(out, 0.05)),
                    Math.min(joined, out)));
        } else {
            double begin = Math.max(RADIAL_REACH_NM - joined, out + 0.05);
            draft.legs.add(
                    new Leg.CourseToFix(at, course, GeodesicLine.between(outbound.pointAt(begin), at.position())));
        }
        int begins = draft.legs.size();
        draft.legs.addAll(path.legsFrom(path.steps().indexOf(fix.step()), at, 0));
        draft.markJoin(begins, path.ident());
        draft.markResume(begins);
        warnServiceVolume(
                station, Math.max(out, direction == Course.Direction.FROM ? joined : RADIAL_REACH_NM - joined));
        draft.intercept.ifPresent(met -> RouteChecks.roomAtFix(draft, met, fixAlong - met.alongCourseNm(), computed));
    }

    private record Found(AirwayPath.Step step, Crossing crossing) {}

    /** Crossings of the radial, ahead of the station, with the legs that may be joined. */
    private List<Found> crossings(GeodesicLine outbound) {
        List<Found> found = new ArrayList<>();
        for (AirwayPath.Step step : path.steps()) {
            outbound.crossing(step.line())
                    .filter(crossing -> Intercepts.within(crossing.alongSecondNm(), step.line())
                            && crossing.alongFirstNm() > 0.01
                            && crossing.alongFirstNm() <= RADIAL_REACH_NM)
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
    private Found choose(
            List<Found> found, GeodesicLine outbound, Station station, Radial radial, Course.Direction direction) {
        if (found.size() == 1) {
            return found.get(0);
        }
        double met = draft.heading
                .flatMap(plan -> plan.path().crossing(outbound))
                .filter(crossing -> crossing.alongFirstNm() > 0 && crossing.alongSecondNm() > 0)
                .map(Crossing::alongSecondNm)
                .orElseGet(() -> outbound.offset(draft.situation.position()).alongTrackNm());
        Found chosen = direction == Course.Direction.FROM
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
                        name(each.step().segment()),
                        each.crossing().alongFirstNm())));
        draft.warn(
                Warning.Code.CHOICE_MADE,
                "the %s %03.0f radial crosses the airway more than once; taken is the first crossing ahead, %.1f NM from"
                        + " %s on %s; the others:%s",
                station.ident(),
                radial.deg(),
                chosen.crossing().alongFirstNm(),
                station.ident(),
                name(chosen.step().segment()),
                others);
        return chosen;
    }

    private ComputedFix computedFix(Station station, Radial radial, Found found, Course.Direction direction) {
        Crossing crossing = found.crossing();
        TrueDirection inbound = direction == Course.Direction.FROM
                ? crossing.firstCourse()
                : crossing.firstCourse().reciprocal();
        String ident = String.format(
                Locale.ROOT,
                "%s%03d%03d",
                station.ident(),
                Math.round(radial.deg()) % 360,
                Math.round(crossing.alongFirstNm()));
        return new ComputedFix(
                new Fix(ident, crossing.position()),
                found.step().segment(),
                crossing.alongSecondNm(),
                crossing.acuteAngleDeg(),
                inbound,
                crossing.secondCourse(),
                FixDefinitions.of(chart, station, radial, crossing, draft.situation));
    }

    private String whyNoCrossing(Station station, Radial radial, GeodesicLine outbound) {
        StringBuilder why = new StringBuilder(String.format(
                Locale.ROOT,
                "the %s %03.0f radial does not cross %s",
                station.ident(),
                radial.deg(),
                path.ident().isEmpty() ? "the filed route" : path.ident()));
        for (AirwayPath.Step step : path.steps()) {
            outbound.crossing(step.line()).ifPresent(crossing -> {
                why.append("; its line meets ").append(name(step.segment()));
                double out = crossing.alongFirstNm();
                double past = crossing.alongSecondNm() - step.line().lengthNm();
                if (out < 0) {
                    why.append(String.format(Locale.ROOT, " %.1f NM on the other side of the station", -out));
                } else if (past > 0) {
                    why.append(String.format(
                            Locale.ROOT,
                            " %.1f NM beyond %s",
                            past,
                            step.segment().to().ident()));
                } else if (crossing.alongSecondNm() < 0) {
                    why.append(String.format(
                            Locale.ROOT,
                            " %.1f NM before %s",
                            -crossing.alongSecondNm(),
                            step.segment().from().ident()));
                } else {
                    why.append(String.format(Locale.ROOT, " %.0f NM out", out));
                }
            });
        }
        return why.toString();
    }

    /** Off published routes only; the leg along the airway is not meant (Aeronautical Information Manual 1-1-8 c). */
    private void warnServiceVolume(Station station, double distanceNm) {
        FixDefinitions.serviceRadiusNm(station, draft.situation).stream()
                .filter(radius -> distanceNm > radius)
                .forEach(radius -> draft.warn(
                        Warning.Code.OUT_OF_SERVICE_VOLUME,
                        "the clearance uses %s %.1f NM from the station; its standard service volume (class %s) %s%s",
                        station.ident(),
                        distanceNm,
                        station.serviceClass().map(Enum::name).orElse("?"),
                        radius > 0 ? String.format(Locale.ROOT, "ends at %.0f NM", radius) : "has no reach",
                        draft.situation.altitudeFt().isPresent()
                                ? String.format(
                                        Locale.ROOT,
                                        " at %.0f ft",
                                        draft.situation.altitudeFt().getAsDouble())
                                : " at any altitude"));
    }

    static String name(FiledRoute.Segment segment) {
        return segment.airway().orElse("the direct") + " " + segment.from().ident() + "-"
                + segment.to().ident();
    }
}
