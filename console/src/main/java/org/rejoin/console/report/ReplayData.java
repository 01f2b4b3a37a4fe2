package org.rejoin.console.report;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.Point;
import org.rejoin.console.draw.Projection;
import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;

import com.fasterxml.jackson.core.JsonGenerator;

/** The flight as columns of numbers for the slider of the report. Numbers only: nothing in it could be markup. */
final class ReplayData {

    /** Enough for the eye; a long flight is thinned, so that the page stays small. */
    private static final int MOST = 2400;

    private final DebriefedFlight flight;
    private final List<PlanView> plans;
    private final List<Point> samples;
    private final List<Entry.Issued> amendments;

    ReplayData(DebriefedFlight flight, List<PlanView> plans) {
        this.flight = flight;
        this.plans = List.copyOf(plans);
        List<Point> all = flight.samples();
        int every = Math.max(1, (all.size() + MOST - 1) / MOST);
        List<Point> thin = new ArrayList<>();
        for (int i = 0; i < all.size(); i++) {
            if (i % every == 0 || i == all.size() - 1) {
                thin.add(all.get(i));
            }
        }
        this.samples = thin;
        this.amendments = flight.record().issued();
    }

    String json() {
        return Json.object(json -> {
            column(json, "time", 1, Point::timeS);
            column(json, "plan", 0, this::planAt);
            column(json, "x", 1, sample -> at(sample).x());
            column(json, "y", 1, sample -> at(sample).y());
            column(json, "track", 0, Point::trackTrueDeg);
            column(json, "heading", 0, Point::headingMagneticDeg);
            column(json, "altitude", 0, sample -> sample.state().altitudeMslFtOrNaN());
            column(json, "speed", 0, Point::groundSpeedKt);
            column(json, "cross", 2, Point::crossTrackNm);
            json.writeArrayFieldStart("events");
            for (var event : flight.debrief().events()) {
                json.writeNumber(JsonNumbers.rounded(event.timeS(), 2));
            }
            json.writeEndArray();
        });
    }

    private void column(JsonGenerator json, String name, int digits, ToDoubleFunction<Point> value) throws IOException {
        json.writeArrayFieldStart(name);
        for (Point sample : samples) {
            double number = value.applyAsDouble(sample);
            if (Double.isNaN(number)) {
                json.writeNull();
            } else {
                json.writeNumber(JsonNumbers.rounded(number, digits));
            }
        }
        json.writeEndArray();
    }

    private Projection.Point at(Point sample) {
        return plans.get(planAt(sample)).view().of(sample.position());
    }

    private int planAt(Point sample) {
        int plan = 0;
        for (int i = 1; i < amendments.size(); i++) {
            plan = sample.timeS() >= amendments.get(i).timeS() ? i : plan;
        }
        return plan;
    }
}
