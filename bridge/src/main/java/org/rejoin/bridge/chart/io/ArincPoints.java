package org.rejoin.bridge.chart.io;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.BiPredicate;

import org.rejoin.bridge.chart.Airport;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.SourceLines;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.Position;

/**
 * The stations, fixes and airports of an ARINC 424 file, by the key that airway records name them with. Paragraphs are
 * those of ARINC 424-18, their numbers from memory.
 */
final class ArincPoints {

    private final Problems problems;
    private final BiPredicate<String, Position> wanted;
    private final Map<String, Entry> entries = new LinkedHashMap<>();
    private final Map<String, List<Waypoint>> atAirports = new LinkedHashMap<>();

    /** A point and the line it stands in. */
    private record Entry(int line, Waypoint point) {}

    /**
     * None yet.
     *
     * @param wanted whether a point of that key and place is to be kept
     */
    ArincPoints(Problems problems, BiPredicate<String, Position> wanted) {
        this.problems = problems;
        this.wanted = wanted;
    }

    /** Key of a point: section and subsection, ident, ICAO code with its blank if it has one. */
    static String key(String section, String ident, String icao) {
        return section + icao + ident;
    }

    /** All points of a key: those of airports may be several, as an airway record does not name the airport. */
    List<Waypoint> of(String key) {
        Entry entry = entries.get(key);
        return entry == null ? atAirports.getOrDefault(key, List.of()) : List.of(entry.point());
    }

    /** All of one type, in the order of the file; a fix that several airports list at one place is there once. */
    <T extends Waypoint> List<T> all(Class<T> type) {
        LinkedHashSet<T> all = new LinkedHashSet<>();
        for (Entry entry : entries.values()) {
            if (type.isInstance(entry.point())) {
                all.add(type.cast(entry.point()));
            }
        }
        return List.copyOf(all);
    }

    /** Says in which lines they stand. */
    void tell(SourceLines lines) {
        entries.values().forEach(entry -> lines.add(entry.point(), entry.line()));
    }

    /** VHF navaid (4.1.2). Instrument landing systems' DMEs are no chart stations. */
    void vhfNavaid(ArincRecord record) throws BadField {
        if (record.at(28) == ' ' && "INP".indexOf(record.at(29)) >= 0) {
            return;
        }
        Station.Kind kind = kind(record);
        String noun = "a VHF navaid";
        record.requireLength(kind.hasRadials() ? 79 : 74, noun);
        String ident = record.ident(14, 17);
        boolean own = !record.blank(56, 74);
        if (record.at(85) == '9') {
            problems.noted(
                    record.line(),
                    ident + " is out of service (figure of merit 9 in column 85): check it before you use it");
        }
        Position position = kind.hasRadials() ? record.position(33, 42) : record.position(own ? 56 : 33, own ? 65 : 42);
        add(
                record,
                key("D ", ident, record.raw(20, 21)),
                "",
                new Station(
                        ident,
                        name(record, 94, ident),
                        kind,
                        serviceClass(record),
                        record.orAbsent(problems, ident, () -> record.fixedPoint(23, 27, 100, "frequency")),
                        position,
                        kind.hasRadials() ? declination(record, ident) : Optional.empty(),
                        elevation(record, ident, 80),
                        kind.hasRadials() && own ? dmePosition(record, ident) : Optional.empty()));
    }

    /** NDB, en route and terminal (4.1.3). Its variation is not a declination, and is not taken. */
    void ndb(ArincRecord record, boolean terminal) throws BadField {
        record.requireLength(51, "an NDB");
        String ident = record.ident(14, 17);
        OptionalDouble khz = record.orAbsent(problems, ident, () -> record.fixedPoint(23, 27, 10, "frequency"));
        add(
                record,
                key(terminal ? "PN" : "DB", ident, record.raw(20, 21)),
                terminal ? record.raw(7, 12) : "",
                new Station(
                        ident,
                        name(record, 94, ident),
                        Station.Kind.NDB,
                        Optional.empty(),
                        khz.isPresent() ? OptionalDouble.of(khz.getAsDouble() / 1000) : khz,
                        record.position(33, 42),
                        Optional.empty(),
                        OptionalDouble.empty()));
    }

    /** Waypoint, en route and terminal (4.1.4). Points for flight by sight are no part of a route under IFR. */
    void waypoint(ArincRecord record, boolean terminal) throws BadField {
        record.requireLength(51, "a waypoint");
        if (record.at(27) == 'V') {
            return;
        }
        String ident = record.ident(14, 18);
        add(
                record,
                key(terminal ? record.at(5) + "C" : "EA", ident, record.raw(20, 21)),
                terminal ? record.raw(7, 12) : "",
                new Fix(ident, record.position(33, 42)));
    }

    /** Airport or heliport (4.1.7). */
    void airport(ArincRecord record) throws BadField {
        record.requireLength(51, "an airport");
        String ident = record.ident(7, 10);
        add(
                record,
                key(record.at(5) + "A", ident, record.raw(11, 12)),
                "",
                new Airport(ident, name(record, 94, ident), record.position(33, 42), elevation(record, ident, 57)));
    }

    private void add(ArincRecord record, String key, String airport, Waypoint point) {
        if (!wanted.test(key, point.position())) {
            return;
        }
        Entry before = entries.put(airport.isEmpty() ? key : key + "@" + airport, new Entry(record.line(), point));
        if (before != null) {
            problems.noted(
                    record.line(),
                    point.ident() + " stands in line " + before.line() + " already, with the same region and kind; "
                            + "the later counts");
        }
        if (!airport.isEmpty()) {
            List<Waypoint> same = atAirports.computeIfAbsent(key, k -> new ArrayList<>(1));
            if (before != null) {
                same.remove(before.point());
            }
            if (!same.contains(point)) {
                same.add(point);
            }
        }
    }

    private static Station.Kind kind(ArincRecord record) throws BadField {
        char vor = record.at(28);
        char dme = record.at(29);
        if (vor == 'V') {
            return switch (dme) {
                case 'D' -> Station.Kind.VORDME;
                case 'T', 'M' -> Station.Kind.VORTAC;
                default -> Station.Kind.VOR;
            };
        }
        if (vor == ' ' && (dme == 'D' || dme == 'T' || dme == 'M')) {
            return Station.Kind.DME;
        }
        record.requireLength(32, "a VHF navaid");
        throw new BadField("class \"" + record.raw(28, 32) + "\" of a VHF navaid does not begin with V, or blank and "
                + "one of D, T, M, I, N, P");
    }

    /** Class (5.35), or where that is undefined the figure of merit (5.149). */
    private static Optional<Station.ServiceClass> serviceClass(ArincRecord record) {
        return switch (record.at(30)) {
            case 'T' -> Optional.of(Station.ServiceClass.T);
            case 'L' -> Optional.of(Station.ServiceClass.L);
            case 'H' -> Optional.of(Station.ServiceClass.H);
            case 'U' ->
                switch (record.at(85)) {
                    case '0' -> Optional.of(Station.ServiceClass.T);
                    case '1' -> Optional.of(Station.ServiceClass.L);
                    case '2', '3' -> Optional.of(Station.ServiceClass.H);
                    default -> Optional.empty();
                };
            default -> Optional.empty();
        };
    }

    private Optional<Declination> declination(ArincRecord record, String ident) {
        try {
            Optional<Declination> declination = record.declination(75);
            if (declination.isEmpty()) {
                problems.noted(
                        record.line(),
                        ident + (record.at(75) == 'G' ? " is aligned to grid north" : " has no declination")
                                + "; no radial of it can be used");
            }
            return declination;
        } catch (BadField e) {
            problems.noted(record.line(), ident + ": " + e.what() + "; no radial of it can be used");
            return Optional.empty();
        }
    }

    private Optional<Position> dmePosition(ArincRecord record, String ident) {
        try {
            return Optional.of(record.position(56, 65));
        } catch (BadField e) {
            problems.noted(record.line(), ident + ", DME: " + e.what() + "; the VOR's position is taken");
            return Optional.empty();
        }
    }

    private OptionalDouble elevation(ArincRecord record, String ident, int column) {
        return record.orAbsent(problems, ident, () -> record.elevationFt(column));
    }

    private static String name(ArincRecord record, int first, String ident) {
        String name = record.text(first, 123);
        return name.isEmpty() ? ident : name;
    }
}
