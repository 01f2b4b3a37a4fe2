package org.rejoin.bridge.chart.io;

import static java.util.Objects.requireNonNull;

import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;

import org.rejoin.bridge.chart.AiracCycle;
import org.rejoin.bridge.chart.Airport;
import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.PublishedHold;
import org.rejoin.bridge.chart.SourceLines;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;

/**
 * What came of reading a chart, as octets: first all points, then what refers to them by their number. NaN stands for a
 * number that there is none of.
 */
final class KeptChart {

    private static final int STATION = 0;
    private static final int FIX = 1;
    private static final int AIRPORT = 2;

    private static final List<Station.Kind> KINDS = List.of(Station.Kind.values());
    private static final List<Station.ServiceClass> CLASSES = List.of(Station.ServiceClass.values());
    private static final List<Airway.Direction> DIRECTIONS = List.of(Airway.Direction.values());
    private static final List<ChartSource.Format> FORMATS = List.of(ChartSource.Format.values());

    private KeptChart() {}

    static byte[] octets(ChartReader.Result result) {
        ByteArrayOutputStream octets = new ByteArrayOutputStream();
        try {
            new Writer(result, new DataOutputStream(octets)).write();
        } catch (IOException e) {
            throw new UncheckedIOException("in memory", e);
        }
        return octets.toByteArray();
    }

    static ChartReader.Result read(ByteBuffer octets) {
        return new Reader(octets).result();
    }

    private static final class Writer {

        private final ChartReader.Result result;
        private final DataOutputStream out;
        private final IdentityHashMap<Waypoint, Integer> numbers = new IdentityHashMap<>();
        private final List<Waypoint> points = new ArrayList<>();

        Writer(ChartReader.Result result, DataOutputStream out) {
            this.result = result;
            this.out = out;
        }

        void write() throws IOException {
            Chart chart = result.chart();
            chart.stations().forEach(this::number);
            chart.fixes().forEach(this::number);
            chart.airports().forEach(this::number);
            int shown = points.size();
            chart.airways().forEach(airway -> airway.points().forEach(this::number));
            chart.holds().forEach(hold -> number(hold.fix()));
            text(chart.name());
            out.writeInt(points.size());
            out.writeInt(shown);
            for (Waypoint point : points) {
                point(point);
            }
            out.writeInt(chart.airways().size());
            for (Airway airway : chart.airways()) {
                airway(airway);
            }
            out.writeInt(chart.holds().size());
            for (PublishedHold hold : chart.holds()) {
                hold(hold);
            }
            out.writeInt(result.problems().size());
            for (ChartReader.Problem problem : result.problems()) {
                out.writeInt(problem.line());
                text(problem.what());
                out.writeBoolean(problem.fatal());
            }
            source(result.source());
        }

        private void number(Waypoint point) {
            if (numbers.putIfAbsent(point, points.size()) == null) {
                points.add(point);
            }
        }

        private void point(Waypoint point) throws IOException {
            out.writeByte(point instanceof Station ? STATION : point instanceof Fix ? FIX : AIRPORT);
            text(point.ident());
            position(point.position());
            if (point instanceof Station station) {
                text(station.name());
                out.writeByte(KINDS.indexOf(station.kind()));
                out.writeByte(station.serviceClass().map(CLASSES::indexOf).orElse(-1));
                number(station.frequencyMhz());
                out.writeDouble(station.declination().map(Declination::eastDeg).orElse(Double.NaN));
                out.writeBoolean(station.isAlignedToTrueNorth());
                number(station.publishedElevationFt());
                out.writeBoolean(station.dmePosition().isPresent());
                if (station.dmePosition().isPresent()) {
                    position(station.dmePosition().get());
                }
            } else if (point instanceof Airport airport) {
                text(airport.name());
                number(airport.publishedElevationFt());
            }
            out.writeInt(result.lines().of(point));
        }

        private void airway(Airway airway) throws IOException {
            text(airway.ident());
            out.writeInt(result.lines().of(airway));
            out.writeInt(airway.points().size());
            for (Waypoint point : airway.points()) {
                out.writeInt(requireNonNull(numbers.get(point)));
            }
            for (Airway.Segment segment : airway.segments()) {
                number(segment.minimumAltitudeFt());
                out.writeByte(DIRECTIONS.indexOf(segment.direction()));
                number(segment.minimumAltitudeBackwardFt());
                number(segment.maximumAltitudeFt());
                number(segment.changeoverNm());
                out.writeByte(segment.minimumUnknown().map(DIRECTIONS::indexOf).orElse(-1));
            }
        }

        private void hold(PublishedHold hold) throws IOException {
            out.writeInt(requireNonNull(numbers.get(hold.fix())));
            out.writeDouble(hold.inboundMagnetic().deg());
            number(hold.inboundTrueDeg());
            out.writeBoolean(hold.right());
            number(hold.legMinutes());
            number(hold.legNm());
            number(hold.minimumAltitudeFt());
            number(hold.maximumAltitudeFt());
            number(hold.maximumSpeedKt());
        }

        private void source(ChartSource source) throws IOException {
            out.writeByte(FORMATS.indexOf(source.format()));
            out.writeInt(source.cycle().map(AiracCycle::year).orElse(0));
            out.writeInt(source.cycle().map(AiracCycle::number).orElse(0));
            out.writeInt(source.records().size());
            for (Map.Entry<String, Integer> each : source.records().entrySet()) {
                text(each.getKey());
                out.writeInt(each.getValue());
            }
        }

        private void position(Position position) throws IOException {
            out.writeDouble(position.latitudeDeg());
            out.writeDouble(position.longitudeDeg());
        }

        private void number(OptionalDouble number) throws IOException {
            out.writeDouble(number.orElse(Double.NaN));
        }

        private void text(String text) throws IOException {
            byte[] octets = text.getBytes(StandardCharsets.UTF_8);
            out.writeInt(octets.length);
            out.write(octets);
        }
    }

    private static final class Reader {

        private final ByteBuffer in;
        private final SourceLines lines = new SourceLines();

        Reader(ByteBuffer in) {
            this.in = in;
        }

        ChartReader.Result result() {
            String name = text();
            Waypoint[] points = new Waypoint[in.getInt()];
            int shown = in.getInt();
            for (int i = 0; i < points.length; i++) {
                points[i] = point();
            }
            List<Airway> airways = new ArrayList<>();
            for (int left = in.getInt(); left > 0; left--) {
                airways.add(airway(points));
            }
            List<PublishedHold> holds = new ArrayList<>();
            for (int left = in.getInt(); left > 0; left--) {
                holds.add(hold(points));
            }
            List<ChartReader.Problem> problems = new ArrayList<>();
            for (int left = in.getInt(); left > 0; left--) {
                problems.add(new ChartReader.Problem(in.getInt(), text(), bool()));
            }
            return new ChartReader.Result(
                    new Chart(
                            name,
                            all(Station.class, points, shown),
                            all(Fix.class, points, shown),
                            all(Airport.class, points, shown),
                            airways,
                            holds),
                    problems,
                    source(),
                    lines);
        }

        private static <T> List<T> all(Class<T> type, Waypoint[] points, int shown) {
            return Arrays.stream(points, 0, shown)
                    .filter(type::isInstance)
                    .map(type::cast)
                    .toList();
        }

        private Waypoint point() {
            byte kind = in.get();
            String ident = text();
            Position position = position();
            Waypoint point = switch (kind) {
                case STATION -> station(ident, position);
                case FIX -> new Fix(ident, position);
                default -> new Airport(ident, text(), position, number());
            };
            lines.add(point, in.getInt());
            return point;
        }

        private Station station(String ident, Position position) {
            String name = text();
            Station.Kind kind = KINDS.get(in.get());
            int serviceClass = in.get();
            OptionalDouble frequencyMhz = number();
            OptionalDouble declination = number();
            boolean trueNorth = bool();
            OptionalDouble elevationFt = number();
            return new Station(
                    ident,
                    name,
                    kind,
                    serviceClass < 0 ? Optional.empty() : Optional.of(CLASSES.get(serviceClass)),
                    frequencyMhz,
                    position,
                    declination.isPresent()
                            ? Optional.of(new Declination(declination.getAsDouble(), trueNorth))
                            : Optional.empty(),
                    elevationFt,
                    bool() ? Optional.of(position()) : Optional.empty());
        }

        private Airway airway(Waypoint[] points) {
            String ident = text();
            int line = in.getInt();
            int size = in.getInt();
            List<Waypoint> flown = new ArrayList<>(size);
            for (int i = 0; i < size; i++) {
                flown.add(points[in.getInt()]);
            }
            List<Airway.Segment> segments = new ArrayList<>(size);
            for (int i = 1; i < size; i++) {
                segments.add(new Airway.Segment(
                        number(), DIRECTIONS.get(in.get()), number(), number(), number(), direction(in.get())));
            }
            Airway airway = new Airway(ident, flown, segments);
            lines.add(airway, line);
            return airway;
        }

        private static Optional<Airway.Direction> direction(int index) {
            return index < 0 ? Optional.empty() : Optional.of(DIRECTIONS.get(index));
        }

        private PublishedHold hold(Waypoint[] points) {
            return new PublishedHold(
                    points[in.getInt()],
                    new Radial(in.getDouble()),
                    number(),
                    bool(),
                    number(),
                    number(),
                    number(),
                    number(),
                    number());
        }

        private ChartSource source() {
            ChartSource.Format format = FORMATS.get(in.get());
            int year = in.getInt();
            int number = in.getInt();
            SortedMap<String, Integer> records = new TreeMap<>();
            for (int left = in.getInt(); left > 0; left--) {
                records.put(text(), in.getInt());
            }
            return new ChartSource(
                    format, year == 0 ? Optional.empty() : Optional.of(new AiracCycle(year, number)), records);
        }

        private Position position() {
            return new Position(in.getDouble(), in.getDouble());
        }

        private OptionalDouble number() {
            double number = in.getDouble();
            return Double.isNaN(number) ? OptionalDouble.empty() : OptionalDouble.of(number);
        }

        private boolean bool() {
            return in.get() != 0;
        }

        private String text() {
            int length = in.getInt();
            String text = new String(in.array(), in.arrayOffset() + in.position(), length, StandardCharsets.UTF_8);
            in.position(in.position() + length);
            return text;
        }
    }
}
