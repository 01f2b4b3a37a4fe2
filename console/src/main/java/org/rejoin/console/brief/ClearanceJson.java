package org.rejoin.console.brief;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.InTurn;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Noted;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Holding;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** A clearance as a JSON object, one member for each instruction. */
final class ClearanceJson implements Instruction.Visitor<ObjectNode> {

    private final ObjectNode object = JsonNodeFactory.instance.objectNode();

    private final AmendedRoute route;

    private ClearanceJson(AmendedRoute route) {
        this.route = route;
    }

    static ObjectNode of(AmendedRoute route) {
        Clearance clearance = route.clearance();
        ClearanceJson json = new ClearanceJson(route);
        json.object.put("text", clearance.text());
        clearance.callsign().ifPresent(callsign -> json.object.put("callsign", callsign));
        clearance.instructions().forEach(instruction -> instruction.fold(json));
        json.inTurn(clearance);
        return json.object;
    }

    /** Several altitudes or speeds, each from where it is in force; beside them the one from now on. */
    private void inTurn(Clearance clearance) {
        if (clearance.altitudes().stream().anyMatch(turn -> turn.from().isPresent())) {
            object.remove(
                    List.of("altitude_ft", "vertical", "begin", "level_by", "altitude_until", "until_established"));
            clearance.altitudeFt().ifPresent(feet -> BriefJson.number(object, "altitude_ft", feet));
            for (InTurn<Instruction.Maintain> turn : clearance.altitudes()) {
                ObjectNode one = object.withArray("altitudes").addObject();
                turn.from().ifPresent(when -> one.put("from", when.passed()));
                BriefJson.number(one, "altitude_ft", turn.said().feet());
                if (turn.said().vertical() != Instruction.Maintain.Vertical.UNSAID) {
                    one.put("vertical", lower(turn.said().vertical()));
                }
                if (turn.said().when() != Instruction.Maintain.Begin.NOW) {
                    one.put("begin", lower(turn.said().when()));
                }
            }
        }
        if (clearance.speeds().stream().anyMatch(turn -> turn.from().isPresent())) {
            object.remove(List.of("speed_kt", "speed_bound", "speed"));
            clearance.speed().ifPresent(this::maintainSpeed);
            for (InTurn<Instruction.Speed> turn : clearance.speeds()) {
                ObjectNode one = object.withArray("speeds").addObject();
                turn.from().ifPresent(when -> one.put("from", when.passed()));
                one.put("said", Phraseology.say(turn.said()));
            }
        }
    }

    @Override
    public ObjectNode flyHeading(Instruction.FlyHeading fly) {
        BriefJson.number(object, "heading_magnetic_deg", fly.heading().deg());
        return turn(fly.direction());
    }

    private ObjectNode turn(Instruction.TurnDirection direction) {
        return direction == Instruction.TurnDirection.SHORTEST ? object : object.put("turn", lower(direction));
    }

    @Override
    public ObjectNode turnBy(Instruction.TurnBy by) {
        BriefJson.number(object, "turn_by_deg", by.degrees());
        return turn(by.direction());
    }

    @Override
    public ObjectNode flyPresentHeading(Instruction.FlyPresentHeading said) {
        return object.put("heading", "present");
    }

    @Override
    public ObjectNode flyRunwayHeading(Instruction.FlyRunwayHeading said) {
        return object.put("heading", "runway");
    }

    @Override
    public ObjectNode interceptAirway(Instruction.InterceptAirway airway) {
        if (object.has("intercept")) {
            // "Intercept the AAA 078 radial, intercept V40": the radial is what is met first, and the airway is joined
            // from it.
            return joinAirway(airway.joined());
        }
        ObjectNode intercept = object.putObject("intercept").put("airway", airway.airway());
        airway.bound().ifPresent(bound -> intercept.put("bound", bound));
        return object;
    }

    @Override
    public ObjectNode interceptRadial(Instruction.InterceptRadial said) {
        return line(said.station(), "radial_deg", said.radial().deg(), said.sense(), said.until());
    }

    @Override
    public ObjectNode interceptBearing(Instruction.InterceptBearing said) {
        return line(said.station(), "bearing_deg", said.bearing().deg(), said.sense(), said.until());
    }

    /** The first line is the one to intercept, further ones follow it. */
    private ObjectNode line(
            Station station, String name, double deg, Instruction.Sense sense, Optional<Instruction.Until> until) {
        ObjectNode line = object.has("intercept")
                ? object.withArray("then_intercept").addObject()
                : object.putObject("intercept");
        BriefJson.number(line.put("station", station.ident()), name, deg);
        if (sense != Instruction.Sense.UNSAID) {
            line.put("sense", lower(sense));
        }
        until.ifPresent(end -> line.set("until", until(end)));
        return object;
    }

    @Override
    public ObjectNode interceptArc(Instruction.InterceptArc said) {
        ObjectNode arc = object.putObject("arc");
        arc.put("station", said.station().ident());
        BriefJson.number(arc, "distance_nm", said.distanceNm());
        if (said.direction() != Instruction.ArcDirection.UNSAID) {
            arc.put("direction", lower(said.direction()));
        } else {
            // "Northwest bound", or nothing: what it comes to on the route.
            route.arcs()
                    .forEach(leg -> arc.put("direction", leg.path().clockwise() ? "clockwise" : "counterclockwise"));
        }
        said.bound().ifPresent(bound -> arc.put("bound", bound));
        said.side().ifPresent(side -> arc.put("side", side));
        said.until().ifPresent(until -> arc.set("until", until(until)));
        return object;
    }

    private static ObjectNode until(Instruction.Until until) {
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        return until.fold(
                at -> BriefJson.number(
                        object.put("station", at.station().ident()),
                        "radial_deg",
                        at.radial().deg()),
                at -> BriefJson.number(object.put("station", at.station().ident()), "distance_nm", at.distanceNm()),
                at -> object.put("fix", at.fix().ident()),
                at -> object.put("airway", at.airway()));
    }

    @Override
    public ObjectNode joinAirway(Instruction.JoinAirway join) {
        // The first airway is the one to join, further ones follow it.
        ObjectNode one =
                object.has("join_airway") ? object.withArray("then_join").addObject() : object;
        one.put("join_airway", join.airway());
        join.at().ifPresent(at -> one.put("join_at", at.ident()));
        join.away().ifPresent(away -> away(away, one.putObject("join_away")));
        join.bound().ifPresent(bound -> one.put("join_bound", bound));
        join.to().ifPresent(to -> one.put("join_to", to.ident()));
        return object;
    }

    private static void away(Instruction.Away away, ObjectNode object) {
        BriefJson.number(object, "distance_nm", away.distanceNm());
        object.put("compass", away.compass());
    }

    @Override
    public ObjectNode direct(Instruction.Direct direct) {
        String beside = direct.away()
                .map(away -> Words.say("%.0f NM %s of ", away.distanceNm(), away.compass()))
                .orElse("");
        object.withArray("direct").add(beside + direct.to().ident());
        if (direct.whenAble()) {
            object.put("when_able", true);
        }
        return object.has("turn") && direct.turn() != Instruction.TurnDirection.SHORTEST
                ? object.put("direct_turn", lower(direct.turn()))
                : turn(direct.turn());
    }

    @Override
    public ObjectNode depart(Instruction.Depart said) {
        ObjectNode depart = object.putObject("depart");
        depart.put("fix", said.fix().ident());
        if (said.turn() != Instruction.TurnDirection.SHORTEST) {
            depart.put("turn", lower(said.turn()));
        }
        said.heading().ifPresent(heading -> BriefJson.number(depart, "heading_magnetic_deg", heading.deg()));
        said.line().ifPresent(line -> {
            BriefJson.number(
                    depart,
                    line.line(radial -> "radial_deg", bearing -> "bearing_deg", arc -> "distance_nm"),
                    line.line(
                            radial -> radial.radial().deg(),
                            bearing -> bearing.bearing().deg(),
                            Instruction.InterceptArc::distanceNm));
            line.until().ifPresent(until -> depart.set("until", until(until)));
        });
        return object;
    }

    @Override
    public ObjectNode clearedTo(Instruction.ClearedTo cleared) {
        return object.put("limit", cleared.limit().ident())
                .put("cleared_to", cleared.limit().ident());
    }

    @Override
    public ObjectNode onward(Instruction.Onward onward) {
        return object.put("then", lower(onward.how()));
    }

    @Override
    public ObjectNode maintain(Instruction.Maintain maintain) {
        BriefJson.number(object, "altitude_ft", maintain.feet());
        if (maintain.untilEstablished()) {
            object.put("until_established", true);
        }
        if (maintain.vertical() != Instruction.Maintain.Vertical.UNSAID) {
            object.put("vertical", lower(maintain.vertical()));
        }
        if (maintain.when() != Instruction.Maintain.Begin.NOW) {
            object.put("begin", lower(maintain.when()));
        }
        maintain.levelBy().ifPresent(fix -> object.put("level_by", fix.ident()));
        return object;
    }

    @Override
    public ObjectNode maintainSpeed(Instruction.MaintainSpeed speed) {
        BriefJson.number(object, "speed_kt", speed.knots());
        return speed.bound() == Instruction.MaintainSpeed.Limit.EXACTLY
                ? object
                : object.put("speed_bound", lower(speed.bound()));
    }

    @Override
    public ObjectNode maintainPresentSpeed(Instruction.MaintainPresentSpeed said) {
        return object.put("speed", "present");
    }

    @Override
    public ObjectNode resumeNormalSpeed(Instruction.ResumeNormalSpeed said) {
        return object.put("speed", "normal");
    }

    @Override
    public ObjectNode crossAt(Instruction.CrossAt cross) {
        ObjectNode crossing = object.withArray("cross").addObject();
        crossing.put("fix", cross.fix().ident());
        cross.before().ifPresent(away -> away(away, crossing));
        crossing.put("bound", lower(cross.bound()));
        BriefJson.number(crossing, "altitude_ft", cross.feet());
        return object;
    }

    @Override
    public ObjectNode hold(Instruction.Hold said) {
        ObjectNode hold = object.putObject("hold");
        hold.put("fix", said.fix().ident());
        said.compass().ifPresent(compass -> hold.put("compass", compass));
        said.line().ifPresent(line -> holdLine(line, hold));
        said.legMinutes().ifPresent(minutes -> BriefJson.number(hold, "leg_minutes", minutes));
        said.legMinutes().ifPresent(minutes -> BriefJson.number(hold, "leg_min", minutes));
        said.legNm().ifPresent(nm -> BriefJson.number(hold, "leg_nm", nm));
        // Unsaid is right, the standard; of a published pattern the chart says it.
        if (said.turns() != Instruction.TurnDirection.SHORTEST) {
            hold.put("turns", lower(said.turns()));
        } else if (!said.asPublished()
                && route.holding().filter(Holding::published).isEmpty()) {
            hold.put("turns", "right");
        }
        said.expectFurtherClearance().ifPresent(time -> hold.put("expect_further_clearance", time));
        hold.put("as_published", said.asPublished());
        if (said.once()) {
            hold.put("circuits", 1);
        }
        return object;
    }

    private static ObjectNode holdLine(Instruction.HoldLine line, ObjectNode hold) {
        return line.fold(
                on -> BriefJson.number(
                        hold.put("station", on.station().ident()),
                        "radial_deg",
                        on.radial().deg()),
                on -> BriefJson.number(
                        hold.put("station", on.station().ident()),
                        "bearing_deg",
                        on.bearing().deg()),
                on -> BriefJson.number(
                        hold, "inbound_course_magnetic_deg", on.inbound().deg()),
                on -> hold.put("airway", on.airway()));
    }

    @Override
    public ObjectNode report(Instruction.Report report) {
        object.withArray("report").add(report.what());
        return object;
    }

    @Override
    public ObjectNode expect(Instruction.Expect expect) {
        object.withArray("expect").add(expect.what());
        return object;
    }

    @Override
    public ObjectNode cancel(Instruction.Cancel said) {
        return object.put("cancel", true);
    }

    @Override
    public ObjectNode noted(Noted said) {
        if (said instanceof Noted.TurnOnto onto) {
            object.withArray("turn_onto").add(lower(onto.side()));
        } else if (said.approach().isPresent()) {
            object.put("expect_approach_clearance", said.approach().get());
        } else if (!InTurn.says(said)) {
            object.withArray("not_followed").add(said.words());
        } else if (said instanceof Noted.Lifted) {
            object.withArray("cancelled").add(said.words());
        }
        InTurn.end(said, Noted.Until.What.ALTITUDE).ifPresent(end -> object.put("altitude_until", end.words()));
        return object;
    }

    private static String lower(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT);
    }
}
