package org.rejoin.console.chart;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.AiracCycle;
import org.rejoin.bridge.chart.Airport;
import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.ChartReport;
import org.rejoin.bridge.chart.PublishedHold;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** A chart as one JSON object. Members that are not known are left out. */
public final class ChartJson {

    /** A tenth of a metre of latitude. */
    private static final int DECIMALS = 6;

    private final ChartReader.Result read;
    private final LocalDate day;
    private final ObjectNode object = JsonNodeFactory.instance.objectNode();

    public ChartJson(String file, ChartReader.Result read, LocalDate day) {
        this.read = read;
        this.day = day;
        object.put("file", file);
        object.put("name", read.chart().name());
        object.put("format", read.source().format().name().toLowerCase(Locale.ROOT));
        read.source().cycle().ifPresent(this::cycle);
        object.put("problem_count", read.problems().size());
    }

    public String text() {
        return object.toPrettyString();
    }

    private void cycle(AiracCycle cycle) {
        object.putObject("cycle")
                .put("cycle", cycle.toString())
                .put("effective", cycle.effective().toString())
                .put("last_day", cycle.effective().plusDays(AiracCycle.DAYS - 1).toString())
                .put("current", cycle.equals(AiracCycle.of(day)))
                .put("current_cycle", AiracCycle.of(day).toString());
    }

    public void describe(ChartReport report) {
        ObjectNode counts = object.putObject("counts");
        ObjectNode stations = counts.putObject("stations");
        report.counts().stations().forEach((kind, number) -> stations.put(kind.name(), number));
        counts.put("fixes", report.counts().fixes());
        counts.put("airports", report.counts().airports());
        counts.put("airways", report.counts().airways());
        counts.put("pieces", report.counts().pieces());
        counts.put("legs", report.counts().legs());
        if (!read.source().records().isEmpty()) {
            ObjectNode records = object.putObject("records");
            read.source().records().forEach(records::put);
        }
        report.bounds().ifPresent(bounds -> {
            ObjectNode edges = object.putObject("bounds");
            number(edges, "south_deg", bounds.southDeg());
            number(edges, "west_deg", bounds.westDeg());
            number(edges, "north_deg", bounds.northDeg());
            number(edges, "east_deg", bounds.eastDeg());
        });
        holds(object, report.holds());
        ArrayNode oddities = object.putArray("oddities");
        for (ChartReport.Finding finding : report.oddities(day)) {
            ObjectNode each = oddities.addObject();
            each.put("code", finding.oddity().name());
            each.put("ident", finding.ident());
            line(each, finding.line());
            each.put("text", finding.text());
        }
        ArrayNode problems = object.putArray("problems");
        for (ChartReader.Problem problem : read.problems()) {
            ObjectNode each = problems.addObject();
            line(each, problem.line());
            each.put("text", problem.what());
            each.put("left_out", problem.fatal());
        }
    }

    public void found(List<ChartReport.Found> found) {
        ArrayNode array = object.putArray("found");
        for (ChartReport.Found point : found) {
            point(array.addObject(), point);
        }
    }

    private static void point(ObjectNode each, ChartReport.Found found) {
        Waypoint point = found.point();
        each.put("ident", point.ident());
        each.put("kind", ChartText.kind(point));
        line(each, found.line());
        position(each, "", point.position());
        if (point instanceof Station station) {
            each.put("name", station.name());
            station.dmePosition().ifPresent(dme -> position(each, "dme_", dme));
            station.declination().map(Declination::eastDeg).ifPresent(deg -> number(each, "declination_deg", deg));
            if (station.isAlignedToTrueNorth()) {
                each.put("aligned_to_true_north", true);
            }
            station.frequencyMhz().ifPresent(mhz -> number(each, "frequency_mhz", mhz));
            station.serviceClass().ifPresent(type -> each.put("class", type.name()));
            known(each, "elevation_ft", station.publishedElevationFt());
        } else if (point instanceof Airport airport) {
            each.put("name", airport.name());
            known(each, "elevation_ft", airport.publishedElevationFt());
        }
        ArrayNode airways = each.putArray("airways");
        found.airways().forEach(airways::add);
        if (!found.holds().isEmpty()) {
            holds(each, found.holds());
        }
    }

    /** Under the names that the chart file uses. */
    private static void holds(ObjectNode object, List<PublishedHold> holds) {
        ArrayNode array = object.putArray("holds");
        for (PublishedHold hold : holds) {
            ObjectNode each = array.addObject();
            each.put("fix", hold.fix().ident());
            number(
                    each,
                    hold.inboundTrueDeg().isPresent() ? "inbound_course_true_deg" : "inbound_course_magnetic_deg",
                    hold.inboundMagnetic().deg());
            each.put("turns", Words.side(hold.right()));
            known(each, "leg_min", hold.legMinutes());
            known(each, "leg_nm", hold.legNm());
            known(each, "minimum_altitude_ft", hold.minimumAltitudeFt());
            known(each, "maximum_altitude_ft", hold.maximumAltitudeFt());
            known(each, "max_speed_kt", hold.maximumSpeedKt());
        }
    }

    public void airway(List<ChartReport.Piece> pieces) {
        ObjectNode airway = object.putObject("airway");
        airway.put("ident", pieces.get(0).ident());
        ArrayNode array = airway.putArray("pieces");
        for (ChartReport.Piece piece : pieces) {
            ObjectNode each = array.addObject();
            line(each, piece.line());
            number(each, "distance_nm", piece.distanceNm());
            ArrayNode legs = each.putArray("legs");
            piece.legs().forEach(leg -> leg(legs.addObject(), leg));
        }
    }

    private void leg(ObjectNode each, ChartReport.Leg leg) {
        Airway.Segment published = leg.published();
        each.put("from", leg.from().ident());
        each.put("to", leg.to().ident());
        number(each, "course_true_deg", leg.course().deg());
        number(each, "course_magnetic_deg", ChartText.magneticDeg(leg, day));
        leg.guide().ifPresent(guide -> each.put("guided_by", guide.ident()));
        number(each, "distance_nm", leg.distanceNm());
        known(each, "minimum_altitude_ft", published.minimumAltitudeFt());
        known(each, "minimum_altitude_backward_ft", published.minimumAltitudeBackwardFt());
        known(each, "maximum_altitude_ft", published.maximumAltitudeFt());
        published
                .minimumUnknown()
                .ifPresent(
                        way -> each.put("minimum_altitude_unknown", way.name().toLowerCase(Locale.ROOT)));
        each.put("direction", published.direction().name().toLowerCase(Locale.ROOT));
    }

    private static void known(ObjectNode object, String name, OptionalDouble value) {
        value.ifPresent(present -> number(object, name, present));
    }

    private static void position(ObjectNode object, String prefix, Position position) {
        JsonNumbers.place(object, prefix, position, DECIMALS);
    }

    private static void line(ObjectNode object, int line) {
        if (line > 0) {
            object.put("line", line);
        }
    }

    private static void number(ObjectNode object, String name, double value) {
        JsonNumbers.put(object, name, value, DECIMALS);
    }
}
