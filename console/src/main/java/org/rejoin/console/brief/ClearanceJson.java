package org.rejoin.console.brief;

import java.util.Locale;

import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.Instruction;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** A clearance as a JSON object, one member for each instruction. */
final class ClearanceJson {

    private ClearanceJson() {}

    static ObjectNode of(Clearance clearance) {
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        object.put("text", clearance.text());
        clearance.callsign().ifPresent(callsign -> object.put("callsign", callsign));
        clearance.instructions().forEach(instruction -> heading(instruction, object));
        clearance.instructions().forEach(instruction -> lateral(instruction, object));
        clearance.instructions().forEach(instruction -> other(instruction, object));
        return object;
    }

    private static void heading(Instruction instruction, ObjectNode object) {
        if (instruction instanceof Instruction.FlyHeading fly) {
            BriefJson.number(object, "heading_magnetic_deg", fly.heading().deg());
            turn(fly.direction(), object);
        } else if (instruction instanceof Instruction.TurnBy by) {
            BriefJson.number(object, "turn_by_deg", by.degrees());
            turn(by.direction(), object);
        } else if (instruction instanceof Instruction.FlyPresentHeading) {
            object.put("heading", "present");
        } else if (instruction instanceof Instruction.FlyRunwayHeading) {
            object.put("heading", "runway");
        }
    }

    private static void turn(Instruction.TurnDirection direction, ObjectNode object) {
        if (direction != Instruction.TurnDirection.SHORTEST) {
            object.put("turn", lower(direction));
        }
    }

    private static void lateral(Instruction instruction, ObjectNode object) {
        if (instruction instanceof Instruction.InterceptRadial radial) {
            ObjectNode intercept = object.putObject("intercept");
            intercept.put("station", radial.station().ident());
            BriefJson.number(intercept, "radial_deg", radial.radial().deg());
            sense(radial.sense(), intercept);
        } else if (instruction instanceof Instruction.InterceptBearing bearing) {
            ObjectNode intercept = object.putObject("intercept");
            intercept.put("station", bearing.station().ident());
            BriefJson.number(intercept, "bearing_deg", bearing.bearing().deg());
            sense(bearing.sense(), intercept);
        } else if (instruction instanceof Instruction.InterceptAirway airway) {
            object.putObject("intercept").put("airway", airway.airway());
        } else if (instruction instanceof Instruction.JoinAirway join) {
            object.put("join_airway", join.airway());
            join.at().ifPresent(at -> object.put("join_at", at.ident()));
            join.to().ifPresent(to -> object.put("join_to", to.ident()));
        } else if (instruction instanceof Instruction.Direct direct) {
            ArrayNode fixes = object.withArray("direct");
            fixes.add(direct.to().ident());
            if (direct.whenAble()) {
                object.put("when_able", true);
            }
        } else if (instruction instanceof Instruction.ClearedTo cleared) {
            object.put("cleared_to", cleared.limit().ident());
        } else if (instruction instanceof Instruction.Onward onward) {
            object.put("then", lower(onward.how()));
        }
    }

    private static void sense(Instruction.Sense sense, ObjectNode object) {
        if (sense != Instruction.Sense.UNSAID) {
            object.put("sense", lower(sense));
        }
    }

    private static void other(Instruction instruction, ObjectNode object) {
        if (instruction instanceof Instruction.Maintain maintain) {
            BriefJson.number(object, "altitude_ft", maintain.feet());
            if (maintain.untilEstablished()) {
                object.put("until_established", true);
            }
        } else if (instruction instanceof Instruction.MaintainSpeed speed) {
            BriefJson.number(object, "speed_kt", speed.knots());
            if (speed.bound() != Instruction.MaintainSpeed.Limit.EXACTLY) {
                object.put("speed_bound", lower(speed.bound()));
            }
        } else if (instruction instanceof Instruction.MaintainPresentSpeed) {
            object.put("speed", "present");
        } else if (instruction instanceof Instruction.ResumeNormalSpeed) {
            object.put("speed", "normal");
        } else if (instruction instanceof Instruction.CrossAt cross) {
            ObjectNode crossing = object.withArray("cross").addObject();
            crossing.put("fix", cross.fix().ident());
            crossing.put("bound", lower(cross.bound()));
            BriefJson.number(crossing, "altitude_ft", cross.feet());
        } else if (instruction instanceof Instruction.Hold hold) {
            hold(hold, object.putObject("hold"));
        } else if (instruction instanceof Instruction.Expect expect) {
            object.withArray("expect").add(expect.what());
        } else if (instruction instanceof Instruction.Cancel) {
            object.put("cancel", true);
        }
    }

    private static void hold(Instruction.Hold hold, ObjectNode object) {
        object.put("fix", hold.fix().ident());
        hold.compass().ifPresent(compass -> object.put("compass", compass));
        hold.inboundRadial().ifPresent(radial -> BriefJson.number(object, "radial_deg", radial.deg()));
        hold.legMinutes().ifPresent(minutes -> BriefJson.number(object, "leg_minutes", minutes));
        hold.legNm().ifPresent(nm -> BriefJson.number(object, "leg_nm", nm));
        object.put("turns", hold.turns() == Instruction.TurnDirection.LEFT ? "left" : "right");
        hold.expectFurtherClearance().ifPresent(time -> object.put("expect_further_clearance", time));
    }

    private static String lower(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT);
    }
}
