package org.rejoin.console.brief;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.PublishedCourse;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** A brief as one JSON object; the members are those of the contract of the commands. What is not known is left out. */
public final class BriefJson {

    /** Decimals kept: a ten-thousandth of a millimetre in degrees of latitude. */
    private static final int DECIMALS = 9;

    private BriefJson() {}

    /**
     * The object.
     *
     * @param brief worked out
     * @param working whether the steps of the working are added
     * @return angles in degrees, distances in nautical miles
     */
    public static ObjectNode of(Brief brief, boolean working) {
        AmendedRoute route = brief.route();
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        object.set("clearance", ClearanceJson.of(route.clearance()));
        route.heading().ifPresent(plan -> heading(plan, object));
        route.course().ifPresent(course -> object.set("course", course(course, route)));
        route.intercept().ifPresent(met -> object.set("intercept", intercept(met)));
        route.computedFix().ifPresent(fix -> object.set("computed_fix", computedFix(fix, route)));
        ArrayNode legs = object.putArray("legs");
        route.legs().forEach(leg -> legs.add(leg(leg, brief)));
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

    private static ObjectNode course(Course course, AmendedRoute route) {
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        number(object, "magnetic_deg", course.courseToSet().deg());
        route.intercept()
                .ifPresent(met ->
                        number(object, "true_deg_at_intercept", met.course().deg()));
        object.put("direction", course.direction().name());
        object.put("station", course.station().ident());
        return object;
    }

    private static ObjectNode intercept(Intercept met) {
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        position(object, met.position());
        number(object, "distance_nm", met.distanceNm());
        number(object, "minutes", met.minutes());
        number(object, "angle_deg", met.angleDeg());
        object.put("turn", met.turnsRight() ? "right" : "left");
        number(object, "lead_nm", met.leadNm());
        met.airwayLeg().ifPresent(segment -> segment(object, segment));
        return object;
    }

    private static ObjectNode computedFix(ComputedFix fix, AmendedRoute route) {
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        object.put("name", fix.fix().ident());
        position(object, fix.fix().position());
        segment(object, fix.segment());
        number(object, "crossing_angle_deg", fix.crossingAngleDeg());
        number(object, "turn_deg", Math.abs(fix.turnDeg()));
        object.put("turn", fix.turnDeg() > 0 ? "right" : "left");
        number(object, "lead_nm", fix.leadNm(route.situation()));
        ArrayNode definitions = object.putArray("definitions");
        for (ComputedFix.Definition definition : fix.definitions()) {
            ObjectNode each = definitions.addObject();
            each.put("station", definition.station().ident());
            number(each, "radial_deg", definition.radial().deg());
            number(each, "distance_nm", definition.distanceNm());
            number(each, "crossing_angle_deg", definition.crossingAngleDeg());
            each.put("use", definition.use().name().toLowerCase(Locale.ROOT));
            each.put("reason", definition.reason());
        }
        return object;
    }

    private static ObjectNode leg(Leg leg, Brief brief) {
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        object.put("type", leg.pathTerminator());
        leg.from().ifPresent(from -> object.put("from", from.ident()));
        leg.endsAt().ifPresent(to -> object.put("to", to.ident()));
        if (leg instanceof Leg.HeadingToIntercept heading) {
            number(object, "course_true_deg", heading.headingTrue().deg());
        } else if (leg instanceof Leg.HeadingOnly heading) {
            number(object, "course_true_deg", heading.headingTrue().deg());
        } else {
            leg.line()
                    .ifPresent(line -> number(
                            object,
                            "course_true_deg",
                            line.courseAt(leg.joinedAtNm()).deg()));
        }
        PublishedCourse.magneticDeg(leg, brief.chart(), brief.route().situation())
                .ifPresent(deg -> number(object, "course_magnetic_deg", deg));
        boolean known = Brief.lengthKnown(brief.route(), leg);
        leg.line().filter(line -> known).map(GeodesicLine::lengthNm).ifPresent(length -> {
            number(object, "distance_nm", Math.max(0, length - leg.joinedAtNm()));
            if (leg.joinedAtNm() > 0) {
                number(object, "joined_at_nm", leg.joinedAtNm());
            }
        });
        leg.airway().ifPresent(airway -> object.put("airway", airway));
        return object;
    }

    private static void segment(ObjectNode object, FiledRoute.Segment segment) {
        segment.airway().ifPresent(airway -> object.put("airway", airway));
        object.put("from", segment.from().ident());
        object.put("to", segment.to().ident());
    }

    static void position(ObjectNode object, Position position) {
        number(object, "latitude_deg", position.latitudeDeg());
        number(object, "longitude_deg", position.longitudeDeg());
    }

    /** A number that is not one is left out: JSON has no word for it. */
    static void number(ObjectNode object, String name, double value) {
        if (Double.isFinite(value)) {
            object.put(
                    name,
                    BigDecimal.valueOf(value)
                            .setScale(DECIMALS, RoundingMode.HALF_EVEN)
                            .doubleValue());
        }
    }
}
