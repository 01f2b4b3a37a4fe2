package org.rejoin.console.why;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.log.EventJson;
import org.rejoin.console.log.EventText;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.core.JsonGenerator;

/**
 * One event, the flight around it and the rules that decided it.
 *
 * @param route in force then; empty before the first clearance
 * @param around samples before and after it, in order of time
 */
public record Explanation(FlightEvent event, Optional<AmendedRoute> route, List<Point> around, Limits limits) {

    public Explanation {
        around = List.copyOf(around);
    }

    /** The event and its rules, for a terminal. */
    List<String> reasons() {
        List<String> lines = new ArrayList<>();
        lines.add(EventText.line(event, route));
        for (Rule rule : rules()) {
            lines.add("  rule, " + rule.title() + ": " + rule.text());
            lines.add("    from: " + source(rule));
        }
        if (rules().isEmpty()) {
            lines.add("  no rule: it follows from the feed, the clearance or the other events");
        }
        return lines;
    }

    /** The flight around it, for a terminal. */
    List<String> table() {
        List<String> lines = new ArrayList<>();
        lines.add("  limits in force for this grade: " + limitsInWords());
        lines.add(Words.say(
                "  %-9s %-24s %-22s %11s %10s %8s %8s %9s %7s",
                "time", "doing", "leg", "cross-track", "to go", "track", "heading", "altitude", "speed"));
        lines.add(Words.say(
                "  %-9s %-24s %-22s %11s %10s %8s %8s %9s %7s",
                "", "", "", "NM", "NM", "off, deg", "off, deg", "off, ft", "kt"));
        boolean held = false;
        for (Point at : around) {
            Measured off = measured(at);
            held |= off.inbound();
            lines.add(Words.say(
                    "  %-9s %-24s %-22s %11s %10s %8s %8s %9s %7.0f",
                    Words.clock(at.timeS()),
                    at.phase().words() + (at.established() ? ", established" : ""),
                    leg(at),
                    side(off.crossTrackNm()),
                    number(off.toGoNm(), "%.2f"),
                    number(off.trackErrorDeg(), "%+.1f"),
                    number(at.headingErrorDeg(), "%+.1f"),
                    number(at.altitudeErrorFt(), "%+.0f"),
                    at.groundSpeedKt()));
        }
        lines.add(
                "  plus: track right of the course, heading right of the assigned one, altitude above the assigned one");
        if (held) {
            lines.add("  in the hold: measured from its inbound course, to go to its fix; minus is past it");
        }
        return lines;
    }

    /** The document; which edition a number was checked in is the contributors' matter. */
    private static String source(Rule rule) {
        return rule.source().replace(" (from memory)", "");
    }

    /** Where the aircraft is: from its leg, or, in a hold, from the inbound course. */
    private record Measured(double crossTrackNm, double toGoNm, double trackErrorDeg, boolean inbound) {}

    private Measured measured(Point at) {
        Optional<Holding> hold = at.hasLine()
                        || legAt(at).filter(Leg.HoldAtFix.class::isInstance).isEmpty()
                ? Optional.empty()
                : route.flatMap(AmendedRoute::holding);
        return hold.map(Holding::inboundLine)
                .map(line -> {
                    Offset offset = line.offset(at.position());
                    return new Measured(
                            offset.crossTrackNm(),
                            line.lengthNm() - offset.alongTrackNm(),
                            Angles.turn(at.trackTrueDeg() - offset.course().deg()),
                            true);
                })
                .orElseGet(() -> new Measured(at.crossTrackNm(), at.toGoNm(), at.trackErrorDeg(), false));
    }

    private Optional<Leg> legAt(Point at) {
        return route.map(AmendedRoute::legs)
                .filter(legs -> at.legIndex() >= 0 && at.legIndex() < legs.size())
                .map(legs -> legs.get(at.legIndex()));
    }

    private List<Rule> rules() {
        return Rules.STANDARD.deciding(event).stream()
                .filter(this::ofLineAtHand)
                .toList();
    }

    /** Several kinds of line have a rule of their own: only that of the line flown then says anything here. */
    private boolean ofLineAtHand(Rule rule) {
        Optional<Point> then = around.stream()
                .min(Comparator.comparingDouble(point -> Math.abs(point.timeS() - event.timeS())))
                .filter(Point::hasLine);
        return then.isEmpty()
                || (rule instanceof Rule.Arc
                        ? legAt(then.get()).filter(Leg.DmeArc.class::isInstance).isPresent()
                        : !(rule instanceof Rule.Direct && event instanceof FlightEvent.InterceptAchieved)
                                || then.get().direct());
    }

    private String limitsInWords() {
        double fullScaleNm = limits.fullScaleAtNm(Double.POSITIVE_INFINITY);
        return Words.say(
                "full scale %.2f NM%s, half scale %.2f NM, course %.2f NM, heading %.0f degrees, altitude %.0f ft",
                fullScaleNm,
                limits.angular() ? Words.say(" or %.0f degrees of a station if less", limits.fullScaleDeg()) : "",
                fullScaleNm / 2,
                fullScaleNm * limits.courseScale(),
                limits.headingDeg(),
                limits.altitudeFt());
    }

    private String leg(Point at) {
        return legAt(at)
                .map(leg -> leg.pathTerminator()
                        + leg.airway().map(airway -> " " + airway).orElse("")
                        + leg.endsAt().map(end -> " to " + end.ident()).orElse("")
                        + (leg instanceof Leg.HoldAtFix hold
                                ? " at " + hold.holding().fix().ident()
                                : ""))
                .orElse("-");
    }

    private static String side(double crossTrackNm) {
        return Double.isNaN(crossTrackNm)
                ? "-"
                : Words.say("%.3f %s", Math.abs(crossTrackNm), Words.side(crossTrackNm));
    }

    private static String number(double value, String format) {
        if (Double.isNaN(value)) {
            return "-";
        }
        String text = Words.say(format, value);
        return text.matches("[+-]0(\\.0*)?") ? text.substring(1) : text;
    }

    public void write(JsonGenerator json) throws IOException {
        json.writeStartObject();
        json.writeFieldName("event");
        EventJson.write(event, json);
        json.writeStringField("text", EventText.line(event, route));
        json.writeArrayFieldStart("rules");
        for (Rule rule : rules()) {
            json.writeStartObject();
            json.writeStringField("rule", rule.title());
            json.writeStringField("definition", rule.text());
            json.writeStringField("source", source(rule));
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeObjectFieldStart("limits");
        JsonNumbers.write(json, "full_scale_nm", limits.fullScaleAtNm(Double.POSITIVE_INFINITY));
        if (limits.angular()) {
            JsonNumbers.write(json, "full_scale_deg", limits.fullScaleDeg());
        }
        JsonNumbers.write(json, "course_scale", limits.courseScale());
        JsonNumbers.write(json, "heading_deg", limits.headingDeg());
        JsonNumbers.write(json, "altitude_ft", limits.altitudeFt());
        json.writeEndObject();
        json.writeArrayFieldStart("states");
        for (Point at : around) {
            state(json, at);
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    private void state(JsonGenerator json, Point at) throws IOException {
        json.writeStartObject();
        JsonNumbers.write(json, "time_s", at.timeS());
        json.writeStringField("phase", at.phase().name());
        json.writeBooleanField("established", at.established());
        json.writeStringField("leg", leg(at));
        JsonNumbers.place(json, "", at.position());
        JsonNumbers.write(json, "true_track_deg", at.trackTrueDeg());
        JsonNumbers.write(json, "ground_speed_kt", at.groundSpeedKt());
        Measured off = measured(at);
        JsonNumbers.write(json, "cross_track_nm", off.crossTrackNm());
        JsonNumbers.write(json, "to_go_nm", off.toGoNm());
        JsonNumbers.write(json, "track_error_deg", off.trackErrorDeg());
        JsonNumbers.write(json, "heading_error_deg", at.headingErrorDeg());
        JsonNumbers.write(json, "altitude_error_ft", at.altitudeErrorFt());
        json.writeEndObject();
    }
}
