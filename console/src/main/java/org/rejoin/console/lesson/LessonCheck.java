package org.rejoin.console.lesson;

import java.io.IOException;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.UnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Spelling;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.protocol.yaml.YamlMembers;

/** Checks the members of a lesson against its chart, one by one; what is wrong is said with its line. */
final class LessonCheck {

    /** Farther from the route nobody begins an amended route, NM (common practice, no source). */
    private static final double FAR_NM = 300;

    /** As a controller says it, or with a colon, which a time in YAML often has. */
    private static final Pattern TIME = Pattern.compile("([01][0-9]|2[0-3]):?([0-5][0-9])");

    private static final Pattern AMENDMENT = Pattern.compile("^amendments/([0-9]+)");

    private final LessonYaml yaml;
    private final ChartUse charted;
    private final Chart chart;
    private final UnaryOperator<String> beside;
    private final boolean builtIn;
    private final List<String> notes = new ArrayList<>();

    /**
     * A check.
     *
     * @param beside where a file is that the lesson names
     * @param builtIn whether it comes with the program, whose build has read its clearances
     */
    LessonCheck(LessonYaml yaml, ChartUse charted, UnaryOperator<String> beside, boolean builtIn) {
        this.yaml = yaml;
        this.charted = charted;
        this.chart = charted.chart();
        this.beside = beside;
        this.builtIn = builtIn;
    }

    Lesson lesson(Lesson.Files files) throws LessonException {
        FiledRoute filed = filed();
        notes.addAll(filed.notes());
        Optional<LocalDate> date = date();
        Optional<LocalTime> time = time();
        Optional<Lesson.Start> start = start(filed);
        Wind wind = wind();
        List<Amendment> amendments = amendments(filed);
        String standard = standard();
        charted.requireSound();
        start.ifPresent(begins -> noteFar(begins, filed));
        notes.addAll(charted.notes());
        notes.addAll(charted.misfits(date.orElseGet(() -> LocalDate.now(ZoneOffset.UTC))));
        return new Lesson(
                yaml.text("title").orElse("untitled"),
                chart,
                filed,
                date,
                time,
                start,
                wind,
                amendments,
                standard,
                radio(),
                files,
                notes);
    }

    private FiledRoute filed() throws LessonException {
        String text = need("filed", "the filed route, for example \"XAAA DCT AAA V31 BBB DCT XBBB\"");
        charted.uses(text);
        try {
            FiledRoute filed = FiledRouteReader.read(text, chart);
            filed.points().forEach(point -> charted.uses(point.ident()));
            return filed;
        } catch (ClearanceException e) {
            throw refused("filed", e);
        }
    }

    private Optional<LocalDate> date() throws LessonException {
        String date = yaml.text("date").orElse(null);
        if (date == null) {
            return Optional.empty();
        }
        try {
            LocalDate day = LocalDate.parse(date);
            if (day.getYear() < 1900 || day.getYear() > 2099) {
                throw wrong("date", "\"" + date + "\" is not in the years 1900 to 2099");
            }
            return Optional.of(day);
        } catch (DateTimeException e) {
            throw wrong("date", "\"" + date + "\" is not a day, expected YYYY-MM-DD");
        }
    }

    private Optional<LocalTime> time() throws LessonException {
        String time = yaml.text("time_utc").orElse(null);
        if (time == null) {
            return Optional.empty();
        }
        Matcher said = TIME.matcher(time);
        if (!said.matches()) {
            throw wrong("time_utc", "\"" + time + "\" is not a time of day, 0000 to 2359 UTC, expected HHMM");
        }
        return Optional.of(LocalTime.of(Integer.parseInt(said.group(1)), Integer.parseInt(said.group(2))));
    }

    private Optional<Lesson.Start> start(FiledRoute filed) throws LessonException {
        if (!yaml.has("start")) {
            return Optional.empty();
        }
        String at = need("start/at", "LAT,LON in degrees, an ident of the chart, or STATION/RADIAL/DISTANCE");
        charted.uses(at);
        Position position;
        try {
            position = Place.read(at, chart, filed.points(), notes);
        } catch (LessonException e) {
            throw wrong("start/at", String.valueOf(e.getMessage()));
        }
        return Optional.of(new Lesson.Start(
                position,
                range("start/altitude_ft", 0, 60_000, "feet"),
                new MagneticDirection(range("start/heading_magnetic_deg", 0, 360, "degrees magnetic")),
                range("start/speed_kt", 40, 600, "knots")));
    }

    /** A start far from the route is a slip more often than meant; latitude and longitude are swapped easily. */
    private void noteFar(Lesson.Start start, FiledRoute filed) {
        double nearestNm = filed.points().stream()
                .mapToDouble(point -> point.position().distanceNm(start.position()))
                .min()
                .orElse(0);
        if (nearestNm > FAR_NM) {
            notes.add(String.format(
                    Locale.ROOT,
                    "%s: start: at: %s is %.0f NM from the nearest point of the filed route; latitude comes first, north and"
                            + " east are plus",
                    yaml.at("start/at"),
                    yaml.text("start/at").orElse(""),
                    nearestNm));
        }
    }

    private Optional<Lesson.Radio> radio() throws LessonException {
        if (!yaml.has("radio")) {
            return Optional.empty();
        }
        double db = range("radio/voice_over_noise_db", 0, 60, "decibels");
        double seeded = yaml.number("radio/seed").isEmpty() ? 0 : range("radio/seed", 0, 1e9, "");
        if (seeded != Math.rint(seeded)) {
            throw wrong("radio/seed", seeded + " is not a whole number; " + Math.round(seeded) + " is one");
        }
        return Optional.of(new Lesson.Radio(db, (long) seeded));
    }

    private Wind wind() throws LessonException {
        return yaml.has("wind")
                ? new Wind(
                        new TrueDirection(range("wind/from_true_deg", 0, 360, "degrees true")),
                        range("wind/speed_kt", 0, 300, "knots"))
                : Wind.CALM;
    }

    private List<Amendment> amendments(FiledRoute filed) throws LessonException {
        List<Amendment> amendments = new ArrayList<>();
        for (int i = 0; i < yaml.amendments(); i++) {
            String here = "amendments/" + i;
            String say = need(here + "/say", "ATC's words, for example \"fly heading 100, intercept V31\"");
            charted.uses(say);
            if (!builtIn) {
                requireUnderstood(here + "/say", say, filed);
            }
            OptionalDouble altitude = yaml.number(here + "/altitude_ft");
            if (altitude.isPresent()) {
                range(here + "/altitude_ft", Clearance.LOWEST_FT, Clearance.HIGHEST_FT, "feet");
            }
            amendments.add(new Amendment(when(here + "/when", filed), say, altitude));
        }
        requireInOrder(amendments);
        return amendments;
    }

    private void requireUnderstood(String here, String say, FiledRoute filed) throws LessonException {
        try {
            ClearanceReader.read(say, chart, filed);
        } catch (ClearanceException e) {
            throw refused(here, e);
        }
    }

    /** A second amendment before the first would be spoken first, which the order in the file denies. */
    private void requireInOrder(List<Amendment> amendments) throws LessonException {
        double latestS = 0;
        int latest = 0;
        for (int i = 0; i < amendments.size(); i++) {
            if (amendments.get(i).when() instanceof Amendment.When.ElapsedS elapsed) {
                if (elapsed.seconds() < latestS) {
                    throw wrong(
                            "amendments/" + i + "/when/elapsed_s",
                            YamlMembers.plain(elapsed.seconds()) + " s is before amendment " + (latest + 1) + " at "
                                    + YamlMembers.plain(latestS) + " s; write them in the order they are spoken");
                }
                latestS = elapsed.seconds();
                latest = i;
            }
        }
    }

    private Amendment.When when(String here, FiledRoute filed) throws LessonException {
        boolean elapsed = yaml.number(here + "/elapsed_s").isPresent();
        if (elapsed == yaml.text(here + "/abeam").isPresent()) {
            throw wrong(here, "expected either elapsed_s: SECONDS or abeam: IDENT");
        }
        if (elapsed) {
            return new Amendment.When.ElapsedS(range(here + "/elapsed_s", 0, 1e6, "seconds"));
        }
        String ident = need(here + "/abeam", "the ident of a point of the chart");
        charted.uses(ident);
        List<Waypoint> points = chart.waypoints(ident);
        if (points.isEmpty()) {
            List<String> idents = filed.points().stream().map(Waypoint::ident).toList();
            String near = Spelling.didYouMean(ident, idents);
            throw wrong(
                    here + "/abeam",
                    ident + " is not on chart " + chart.name()
                            + (near.isEmpty() ? "; the filed route has " + String.join(", ", idents) : near));
        }
        Waypoint nearest = Place.nearest(points, filed.points());
        if (nearest.position().distanceNm(points.get(0).position()) > 1) {
            throw wrong(
                    here + "/abeam",
                    points.size() + " points of the chart are named " + ident
                            + "; name a point that is alone, or use elapsed_s");
        }
        return new Amendment.When.Abeam(ident);
    }

    private String standard() throws LessonException {
        String standard = yaml.text("standard").orElse("instrument-rating");
        try {
            String found = ToleranceSet.isBuiltIn(standard) ? standard : beside.apply(standard);
            ToleranceSet.read(found);
            return found;
        } catch (IOException | IllegalArgumentException e) {
            throw wrong("standard", LessonYaml.firstLine(e.getMessage()));
        }
    }

    private LessonException refused(String member, ClearanceException e) {
        return new LessonException(
                yaml.at(member) + ": " + words(member) + ": " + LessonYaml.firstLine(e.getMessage()) + charted.hint(e),
                e);
    }

    private LessonException wrong(String member, String what) {
        return new LessonException(yaml.at(member) + ": " + words(member) + ": " + what);
    }

    private String need(String member, String right) throws LessonException {
        return yaml.text(member).orElseThrow(() -> wrong(member, "missing; " + right));
    }

    private double range(String member, double low, double high, String unit) throws LessonException {
        String right = Math.round(low) + " to " + Math.round(high) + " " + unit;
        double number = yaml.number(member).orElseThrow(() -> wrong(member, "missing; a number, " + right));
        if (!(number >= low && number <= high)) {
            throw wrong(member, YamlMembers.plain(number) + " is not in " + right);
        }
        return number;
    }

    /** "amendments/0/say" for people: "amendment 1: say". */
    private static String words(String member) {
        return AMENDMENT
                .matcher(member)
                .replaceFirst(found -> "amendment " + (Integer.parseInt(found.group(1)) + 1))
                .replace("/", ": ");
    }
}
