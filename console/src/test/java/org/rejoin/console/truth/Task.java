package org.rejoin.console.truth;

import java.time.LocalDate;
import java.util.Locale;

import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.practice.WindProfile;
import org.rejoin.console.truth.TrueLine.Place;

/**
 * A lesson in open ocean made from a setting, with the two lines that matter known in closed form: the leg to intercept and
 * the leg after it.
 *
 * @param setting made from
 * @param first leg to intercept
 * @param second leg after it
 * @param start of the aircraft
 * @param headingBeforeDeg true, before the clearance
 * @param assignedDeg assigned heading, true
 * @param chart text of the chart file
 * @param lesson text of the lesson file
 */
record Task(
        Setting setting,
        TrueLine first,
        TrueLine second,
        Place start,
        double headingBeforeDeg,
        double assignedDeg,
        String chart,
        String lesson) {

    static final LocalDate DATE = LocalDate.of(2026, 6, 1);
    static final double ALTITUDE_FT = 6000;
    static final double CLEARED_S = 30;

    /** Full scale of the deviation indicator in use: satellite equipment en route (AC 20-138, RTCA DO-229), NM. */
    static final double FULL_SCALE_NM = 2;

    private static final double DECLINATION_DEG = -8;
    private static final double BEFORE_NM = 30;

    static Task of(Setting setting) {
        Place end = new Place(setting.latitudeDeg(), setting.longitudeDeg());
        return switch (setting.shape()) {
            case AIRWAY -> airway(setting, end);
            case RADIAL_INBOUND -> inbound(setting, end);
            case RADIAL_OUTBOUND -> outbound(setting, end);
        };
    }

    private static Task airway(Setting s, Place end) {
        Place from = end.going(s.courseDeg() + 180, s.legNm() + BEFORE_NM);
        TrueLine first = TrueLine.between(from, end);
        Place last = end.going(first.courseDeg(first.lengthNm()) + s.turnDeg(), 60);
        String chart = stations(station("AAA", "Petrel", from) + station("CCC", "Skua", last))
                + "fixes:\n" + fix("BBBBB", end)
                + airports(from, last)
                + "airways:\n  - {ident: V40, points: [AAA, BBBBB, CCC]}\n";
        return of(s, first, TrueLine.between(end, last), chart, "V40", "intercept V40, resume own navigation");
    }

    private static Task inbound(Setting s, Place end) {
        int radial = figure(s.courseDeg() + 180 - DECLINATION_DEG);
        Place from = end.going(radial + DECLINATION_DEG, s.legNm() + BEFORE_NM);
        TrueLine first = TrueLine.between(from, end);
        double course = first.courseDeg(first.lengthNm());
        // The airway comes from elsewhere, so that the radial is a line of its own.
        Place airwayFrom = end.going(course + 180 + 70 * -Math.signum(s.interceptDeg()), 60);
        Place last = end.going(course + s.turnDeg(), 60);
        String chart = stations(station("AAA", "Petrel", airwayFrom)
                        + station("BBB", "Tern", end)
                        + station("CCC", "Skua", last))
                + airports(airwayFrom, last)
                + "airways:\n  - {ident: V40, points: [AAA, BBB, CCC]}\n";
        return of(
                s,
                first,
                TrueLine.between(end, last),
                chart,
                "V40",
                String.format(Locale.ROOT, "intercept the BBB %03d radial, join V40, then as filed", radial));
    }

    private static Task outbound(Setting s, Place end) {
        int radial = figure(s.courseDeg() - DECLINATION_DEG);
        // The station lies where its radial, a whole degree, comes to the end.
        Place station = end.going(radial + DECLINATION_DEG + 180, s.legNm() + 15);
        TrueLine first = TrueLine.between(station, station.going(radial + DECLINATION_DEG, s.legNm() + 15));
        Place crossing = first.at(first.lengthNm());
        double along = first.courseDeg(first.lengthNm()) + s.turnDeg();
        Place airwayFrom = crossing.going(along + 180, 45);
        Place last = crossing.going(along, 60);
        String chart = stations(station("PTL", "Petrel", station)
                        + station("AAA", "Tern", airwayFrom)
                        + station("CCC", "Skua", last))
                + airports(airwayFrom, last)
                + "airways:\n  - {ident: V40, points: [AAA, CCC]}\n";
        return of(
                s,
                first,
                TrueLine.between(crossing, last),
                chart,
                "V40",
                String.format(Locale.ROOT, "intercept the PTL %03d radial, join V40, then as filed", radial));
    }

    private static Task of(Setting s, TrueLine first, TrueLine second, String chart, String airway, String then) {
        double meetNm = first.lengthNm() - s.legNm();
        Place meets = first.at(meetNm);
        double track = first.courseDeg(meetNm) + s.interceptDeg();
        double angle = Math.toRadians(s.windFromDeg() - track);
        double correction = Math.toDegrees(Math.asin(s.windKt() / s.speedKt() * Math.sin(angle)));
        double groundKt = s.speedKt() * Math.cos(Math.toRadians(correction)) - s.windKt() * Math.cos(angle);
        Place start = meets.going(track + 180, groundKt / 60 * (s.minutesToLine() + CLEARED_S / 60));
        double variation = MagneticModel.WMM2025
                .variation(new Position(start.latitudeDeg(), wrapped(start.longitudeDeg())), ALTITUDE_FT, DATE)
                .eastDeg();
        int heading = figure(track + correction - variation);
        double before = heading + variation + s.headingBeforeDeg();
        String lesson = String.format(
                Locale.ROOT,
                """
                title: A task in open ocean
                chart: chart.yaml
                filed: "XAAA DCT AAA %s CCC DCT XCCC"
                date: %s
                start: {at: "%.6f,%.6f", altitude_ft: %.0f, heading_magnetic_deg: %.2f, speed_kt: %.1f}
                wind: {from_true_deg: %.2f, speed_kt: %.2f}
                amendments:
                  - {when: {elapsed_s: %.0f}, say: "fly heading %03d, %s", altitude_ft: %.0f}
                standard: instrument-rating
                """,
                airway,
                DATE,
                start.latitudeDeg(),
                wrapped(start.longitudeDeg()),
                ALTITUDE_FT,
                degrees(before - variation),
                s.speedKt(),
                degrees(s.windFromDeg()),
                s.windKt(),
                CLEARED_S,
                heading,
                then,
                ALTITUDE_FT);
        return new Task(s, first, second, start, before, heading + variation, chart, lesson);
    }

    WindProfile winds() {
        return new WindProfile(
                new Wind(new TrueDirection(setting.windFromDeg()), setting.windKt()),
                ALTITUDE_FT,
                0,
                setting.shearKtPer1000Ft());
    }

    /** A direction as three figures, 001 to 360. */
    private static int figure(double deg) {
        int figure = (int) Math.floorMod(Math.round(deg), 360L);
        return figure == 0 ? 360 : figure;
    }

    private static double degrees(double deg) {
        double d = deg % 360;
        double in = d < 0 ? d + 360 : d;
        return in > 359.99 ? 0 : in;
    }

    static double wrapped(double longitudeDeg) {
        return TrueLine.turn(longitudeDeg);
    }

    private static String stations(String lines) {
        return "name: Invented, in open ocean\nstations:\n" + lines;
    }

    private static String station(String ident, String name, Place place) {
        return String.format(
                Locale.ROOT,
                "  - {ident: %s, name: %s, kind: VORTAC, class: H, frequency_mhz: 113.4, latitude_deg: %.9f,"
                        + " longitude_deg: %.9f, declination_deg: %.1f, elevation_ft: 0}%n",
                ident,
                name,
                place.latitudeDeg(),
                wrapped(place.longitudeDeg()),
                DECLINATION_DEG);
    }

    private static String fix(String ident, Place place) {
        return String.format(
                Locale.ROOT,
                "  - {ident: %s, latitude_deg: %.9f, longitude_deg: %.9f}%n",
                ident,
                place.latitudeDeg(),
                wrapped(place.longitudeDeg()));
    }

    private static String airports(Place from, Place to) {
        return "airports:\n" + airport("XAAA", "First Field", from.going(200, 15))
                + airport("XCCC", "Last Field", to.going(150, 15));
    }

    private static String airport(String ident, String name, Place place) {
        return String.format(
                Locale.ROOT,
                "  - {ident: %s, name: %s, latitude_deg: %.9f, longitude_deg: %.9f, elevation_ft: 10}%n",
                ident,
                name,
                place.latitudeDeg(),
                wrapped(place.longitudeDeg()));
    }
}
