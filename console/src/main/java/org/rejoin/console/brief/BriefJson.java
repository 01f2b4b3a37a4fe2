package org.rejoin.console.brief;

import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.CrossingPlan;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.MadeFix;
import org.rejoin.bridge.route.RadialDistance;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** A brief as one JSON object; what is not known is left out. */
public final class BriefJson {

    /** Decimals of a position: a tenth of a millimetre in degrees of latitude, so that checks can compare geodesics. */
    private static final int POSITION_DECIMALS = 9;

    /** Decimals of all else: two millimetres in nautical miles. */
    private static final int DECIMALS = 6;

    private BriefJson() {}

    /**
     * The object.
     *
     * @param working whether the steps of the working are added
     * @return angles in degrees, distances in nautical miles; directions as numbers are in [0, 360), so that north is 0 where
     *     the words say 360
     */
    public static ObjectNode of(Brief brief, boolean working) {
        AmendedRoute route = brief.route();
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        object.set("clearance", ClearanceJson.of(route));
        route.turn().ifPresent(turn -> {
            ObjectNode each = object.putObject("turn_to_heading");
            each.put("direction", Words.side(turn.right()));
            number(each, "degrees", turn.degrees());
            number(each, "seconds", turn.seconds());
            number(each, "heading_magnetic_deg", turn.heading().deg());
        });
        route.heading().ifPresent(plan -> heading(plan, object));
        route.course().ifPresent(course -> course(object.putObject("course"), course, route));
        route.intercept().ifPresent(met -> intercept(object.putObject("intercept"), met));
        route.computedFix().ifPresent(fix -> computedFix(object.putObject("computed_fix"), fix, route));
        List<MadeFix> made = MadeFix.of(route, brief.chart());
        if (!made.isEmpty()) {
            ArrayNode fixes = object.putArray("made_fixes");
            made.forEach(fix -> madeFix(fixes.addObject(), fix));
        }
        ArrayNode legs = object.putArray("legs");
        route.legs().forEach(leg -> leg(legs.addObject(), leg, brief));
        if (!route.crossings().isEmpty()) {
            ArrayNode crossings = object.putArray("crossings");
            route.crossings().forEach(plan -> crossing(crossings.addObject(), plan));
        }
        route.holding().ifPresent(hold -> hold(object.putObject("hold"), hold));
        route.limit().ifPresent(limit -> object.put("limit", limit.ident()));
        route.openEnd().ifPresent(end -> object.put("route_ends_at", end.ident()));
        ArrayNode skipped = object.putArray("skipped");
        route.skipped().stream().map(Waypoint::ident).forEach(skipped::add);
        ArrayNode warnings = object.putArray("warnings");
        route.warnings()
                .forEach(warning ->
                        warnings.addObject().put("code", warning.code().name()).put("text", warning.text()));
        if (!route.headingsThatMeet().isEmpty()) {
            ArrayNode ranges = object.putArray("headings_that_meet");
            route.headingsThatMeet().forEach(range -> {
                ObjectNode each = ranges.addObject();
                number(each, "from_magnetic_deg", range.from().deg());
                number(each, "to_magnetic_deg", range.to().deg());
            });
        }
        if (!brief.notes().isEmpty()) {
            ArrayNode notes = object.putArray("notes");
            brief.notes().forEach(notes::add);
        }
        if (working) {
            ArrayNode steps = object.putArray("working");
            route.working()
                    .forEach(step -> steps.addObject()
                            .put("what", step.what())
                            .put("formula", step.formula())
                            .put("values", step.values()));
        }
        return object;
    }

    private static void heading(HeadingPlan plan, ObjectNode object) {
        switch (plan.origin()) {
            case ASSIGNED ->
                number(object, "assigned_heading_true_deg", plan.headingTrue().deg());
            case PRESENT -> {
                number(object, "present_heading_magnetic_deg", plan.magnetic().deg());
                number(object, "present_heading_true_deg", plan.headingTrue().deg());
            }
            case PROPOSED -> {
                number(object, "proposed_heading_magnetic_deg", plan.magnetic().deg());
                number(object, "proposed_heading_true_deg", plan.headingTrue().deg());
            }
        }
        number(object, "track_true_deg", plan.ground().track().deg());
        number(object, "ground_speed_kt", plan.ground().groundSpeedKt());
    }

    private static void course(ObjectNode object, Course course, AmendedRoute route) {
        number(object, "magnetic_deg", course.courseToSet().deg());
        // An arc met first has a course of its own there, which is not this one.
        route.intercept()
                .filter(met ->
                        route.firstLine().filter(Leg.DmeArc.class::isInstance).isEmpty())
                .ifPresent(met ->
                        number(object, "true_deg_at_intercept", met.course().deg()));
        object.put("direction", course.direction().name());
        object.put("station", course.station().ident());
    }

    private static void intercept(ObjectNode object, Intercept met) {
        position(object, met.position());
        number(object, "distance_nm", met.distanceNm());
        number(object, "minutes", met.minutes());
        number(object, "angle_deg", met.angleDeg());
        object.put("turn", Words.side(met.turnsRight()));
        number(object, "lead_nm", met.leadNm());
        met.airwayLeg().ifPresent(segment -> segment(object, segment));
    }

    private static void computedFix(ObjectNode object, ComputedFix fix, AmendedRoute route) {
        object.put("name", fix.fix().ident());
        position(object, fix.fix().position());
        segment(object, fix.segment());
        number(object, "crossing_angle_deg", fix.crossingAngleDeg());
        if (route.turnAtComputedFix().isPresent()) {
            number(object, "turn_deg", Math.abs(fix.turnDeg()));
            object.put("turn", Words.side(fix.turnDeg()));
            number(object, "lead_nm", fix.leadNm(route.situation()));
        }
        ArrayNode definitions = object.putArray("definitions");
        for (ComputedFix.Definition definition : fix.definitions()) {
            ObjectNode each = definitions.addObject();
            each.put("station", definition.station().ident());
            number(each, direction(definition.station()), definition.radial().deg());
            number(each, "distance_nm", definition.distanceNm());
            each.put("dme", definition.station().kind().hasDistance());
            number(each, "crossing_angle_deg", definition.crossingAngleDeg());
            each.put("use", definition.use().name().toLowerCase(Locale.ROOT));
            each.put("reason", definition.reason());
        }
    }

    /** A DME alone has no radials: magnetic bearings from it, by today's variation. */
    private static String direction(Waypoint from) {
        return from instanceof Station station && station.kind() == Station.Kind.DME ? "bearing_deg" : "radial_deg";
    }

    /** Every point of the route that the chart has not, the computed fix among them; miles where a DME shows them. */
    private static void madeFix(ObjectNode object, MadeFix fix) {
        object.put("name", fix.fix().ident());
        position(object, fix.fix().position());
        ArrayNode definitions = object.putArray("definitions");
        for (RadialDistance way : fix.definitions()) {
            ObjectNode each = definitions.addObject();
            each.put(
                    way.from() instanceof Station ? "station" : "fix",
                    way.from().ident());
            number(each, direction(way.from()), way.radial().deg());
            if (way.byDme() || !(way.from() instanceof Station)) {
                number(each, "distance_nm", way.distanceNm());
            }
        }
    }

    private static void crossing(ObjectNode object, CrossingPlan plan) {
        object.put("fix", plan.said().fix().ident());
        if (plan.said().before().isPresent()) {
            object.put("place", plan.place());
        }
        object.put("bound", plan.said().bound().name().toLowerCase(Locale.ROOT));
        number(object, "altitude_ft", plan.said().feet());
        plan.distanceNm().ifPresent(nm -> number(object, "distance_nm", nm));
        plan.minutes().ifPresent(minutes -> number(object, "minutes", minutes));
        plan.ftPerNm().ifPresent(feet -> number(object, "ft_per_nm", feet));
        plan.ftPerMin().ifPresent(feet -> number(object, "ft_per_min", feet));
        plan.ftPerNm()
                .ifPresent(feet -> object.put("direction", feet == 0 ? "level" : plan.climb() ? "climb" : "descend"));
    }

    private static void hold(ObjectNode object, Holding hold) {
        object.put("fix", hold.fix().ident());
        object.put("line", hold.line());
        number(object, "inbound_course_magnetic_deg", hold.inbound().deg());
        number(object, "inbound_course_true_deg", hold.inboundTrue().deg());
        object.put("turns", Words.side(hold.right()));
        hold.legMinutes().ifPresent(minutes -> number(object, "leg_min", minutes));
        hold.legNm().ifPresent(nm -> number(object, "leg_nm", nm));
        object.put("entry", hold.entry().name().toLowerCase(Locale.ROOT));
        hold.orEntry().ifPresent(entry -> object.put("or_entry", entry.name().toLowerCase(Locale.ROOT)));
        number(object, "arrival_heading_magnetic_deg", hold.arrivalHeading().deg());
        ArrayNode headings = object.putArray("entry_headings_magnetic_deg");
        hold.entryHeadings()
                .forEach(heading -> headings.add(
                        JsonNumbers.rounded(heading.deg(), DECIMALS).doubleValue()));
        hold.inboundHeading().ifPresent(heading -> number(object, "inbound_heading_magnetic_deg", heading.deg()));
        number(object, "outbound_heading_magnetic_deg", hold.outboundHeading().deg());
        hold.outboundSeconds().ifPresent(seconds -> number(object, "outbound_s", seconds));
        number(object, "max_speed_kt", hold.maximumSpeedKt());
        object.put("published", hold.published());
        hold.expectFurtherClearance().ifPresent(time -> object.put("expect_further_clearance", time));
    }

    private static void leg(ObjectNode object, Leg leg, Brief brief) {
        object.put("type", leg.pathTerminator());
        if (leg instanceof Leg.DmeArc arc) {
            arc(arc, object, brief);
            return;
        }
        leg.from().ifPresent(from -> object.put("from", from.ident()));
        leg.endsAt().ifPresent(to -> object.put("to", to.ident()));
        if (leg instanceof Leg.HoldAtFix hold) {
            object.put("fix", hold.holding().fix().ident());
        }
        LegCourse course = LegCourse.of(leg, brief);
        course.trueDeg().ifPresent(deg -> number(object, "course_true_deg", deg));
        course.magnetic().ifPresent(published -> {
            number(object, "course_magnetic_deg", published.magneticDeg());
            published.station().ifPresent(station -> object.put("course_station", station.ident()));
        });
        course.headingToHold().ifPresent(heading -> number(object, "heading_to_hold_magnetic_deg", heading));
        course.driftDeg().ifPresent(drift -> number(object, "drift_deg", drift));
        boolean known = Brief.lengthKnown(brief.route(), leg);
        leg.line().filter(line -> known).map(GeodesicLine::lengthNm).ifPresent(length -> {
            number(object, "distance_nm", Math.max(0, length - leg.joinedAtNm()));
            if (leg.joinedAtNm() > 0) {
                number(object, "joined_at_nm", leg.joinedAtNm());
            }
        });
        leg.airway().ifPresent(airway -> object.put("airway", airway));
    }

    private static void arc(Leg.DmeArc arc, ObjectNode object, Brief brief) {
        object.put("station", arc.station().ident());
        object.put("to", arc.to().ident());
        number(object, "distance_nm", arc.distanceNm()); // by DME, as in the clearance; its length is length_nm
        number(object, "from_" + direction(arc.station()), arc.fromRadial().deg());
        number(object, "to_" + direction(arc.station()), arc.toRadial().deg());
        object.put("turn", Words.side(arc.path().clockwise()));
        number(object, "length_nm", arc.path().lengthNm());
        TrueDirection begins = arc.path().courseAt(0);
        number(object, "course_true_deg", begins.deg());
        Variation variation = brief.route().situation().variationAt(arc.path().pointAt(0));
        number(object, "course_magnetic_deg", begins.toMagnetic(variation).deg());
    }

    private static void segment(ObjectNode object, FiledRoute.Segment segment) {
        segment.airway().ifPresent(airway -> object.put("airway", airway));
        object.put("from", segment.from().ident());
        object.put("to", segment.to().ident());
    }

    private static void position(ObjectNode object, Position position) {
        JsonNumbers.place(object, "", position, POSITION_DECIMALS);
    }

    static ObjectNode number(ObjectNode object, String name, double value) {
        JsonNumbers.put(object, name, value, DECIMALS);
        return object;
    }
}
