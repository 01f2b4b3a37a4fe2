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
import org.rejoin.bridge.chart.Waypoint;
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

import org.jspecify.annotations.Nullable;

/** Checks the members of a lesson against its chart, one by one; what is wrong is said with its line. */
final class LessonCheck {

    /** Farther from the route nobody begins an amended route, NM (common practice, no source). */
    private static final double FAR_NM = 300;

    /** As a controller says it, or with a colon, which a time in YAML often has. */
    private static final Pattern TIME = Pattern.compile("([01][0-9]|2[0-3]):?([0-5][0-9])");

    private final LessonYaml yaml;
    private final LessonYaml.Lines lines;
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
        this.lines = yaml.lines();
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
                yaml.title() == null ? "untitled" : yaml.title(),
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
        String text = need("filed", yaml.filed());
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
        String date = yaml.date();
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
        String time = yaml.time_utc();
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
        LessonYaml.StartYaml start = yaml.start();
        if (start == null) {
            return Optional.empty();
        }
        String at = need("start/at", start.at());
        charted.uses(at);
        Position position;
        try {
            position = Place.read(at, chart, filed.points(), notes);
        } catch (LessonException e) {
            throw wrong("start/at", String.valueOf(e.getMessage()));
        }
        return Optional.of(new Lesson.Start(
                position,
                range("start/altitude_ft", start.altitude_ft(), 0, 60_000, "feet"),
                new MagneticDirection(
                        range("start/heading_magnetic_deg", start.heading_magnetic_deg(), 0, 360, "degrees magnetic")),
                range("start/speed_kt", start.speed_kt(), 40, 600, "knots")));
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
                    lines.at("start/at"),
                    yaml.start() == null ? "" : yaml.start().at(),
                    nearestNm));
        }
    }

    private Optional<Lesson.Radio> radio() throws LessonException {
        LessonYaml.RadioYaml radio = yaml.radio();
        if (radio == null) {
            return Optional.empty();
        }
        double db = range("radio/voice_over_noise_db", radio.voice_over_noise_db(), 0, 60, "decibels");
        Double seed = radio.seed();
        double seeded = seed == null ? 0 : range("radio/seed", seed, 0, 1e9, "");
        if (seeded != Math.rint(seeded)) {
            throw wrong("radio/seed", seeded + " is not a whole number");
        }
        return Optional.of(new Lesson.Radio(db, (long) seeded));
    }

    private Wind wind() throws LessonException {
        LessonYaml.WindYaml wind = yaml.wind();
        if (wind == null) {
            return Wind.CALM;
        }
        return new Wind(
                new TrueDirection(range("wind/from_true_deg", wind.from_true_deg(), 0, 360, "degrees true")),
                range("wind/speed_kt", wind.speed_kt(), 0, 300, "knots"));
    }

    private List<Amendment> amendments(FiledRoute filed) throws LessonException {
        List<Amendment> amendments = new ArrayList<>();
        List<LessonYaml.AmendmentYaml> list = yaml.amendments();
        for (int i = 0; i < list.size(); i++) {
            String here = "amendments/" + i;
            LessonYaml.AmendmentYaml each = list.get(i);
            String say = need(here + "/say", each.say());
            charted.uses(say);
            if (!builtIn) {
                requireUnderstood(here + "/say", say, filed);
            }
            OptionalDouble altitude = each.altitude_ft() == null
                    ? OptionalDouble.empty()
                    : OptionalDouble.of(range(here + "/altitude_ft", each.altitude_ft(), 0, 60_000, "feet"));
            amendments.add(new Amendment(when(here + "/when", each.when(), filed), say, altitude));
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

    private Amendment.When when(String here, LessonYaml.@Nullable WhenYaml when, FiledRoute filed)
            throws LessonException {
        if (when == null || (when.elapsed_s() == null) == (when.abeam() == null)) {
            throw wrong(here, "expected either elapsed_s: SECONDS or abeam: IDENT");
        }
        if (when.elapsed_s() != null) {
            return new Amendment.When.ElapsedS(range(here + "/elapsed_s", when.elapsed_s(), 0, 1e6, "seconds"));
        }
        String ident = need(here + "/abeam", when.abeam());
        charted.uses(ident);
        List<Waypoint> points = chart.waypoints(ident);
        if (points.isEmpty()) {
            throw wrong(here + "/abeam", ident + " is not on chart " + chart.name());
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
        String standard = yaml.standard() == null ? "instrument-rating" : yaml.standard();
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
                lines.at(member) + ": " + words(member) + ": " + e.code() + ": " + LessonYaml.firstLine(e.getMessage())
                        + charted.hint(e),
                e);
    }

    private LessonException wrong(String member, String what) {
        return new LessonException(lines.at(member) + ": " + words(member) + ": " + what);
    }

    private <T> T need(String member, @Nullable T value) throws LessonException {
        if (value == null) {
            throw wrong(member, "missing");
        }
        return value;
    }

    private double range(String member, @Nullable Double value, double low, double high, String unit)
            throws LessonException {
        double number = need(member, value);
        if (!(number >= low && number <= high)) {
            throw wrong(
                    member,
                    YamlMembers.plain(number) + " is not in [" + Math.round(low) + ", " + Math.round(high) + "] "
                            + unit);
        }
        return number;
    }

    /** "amendments/0/say" for people: "amendment 1: say". */
    private static String words(String member) {
        String[] steps = member.split("/", -1);
        StringBuilder words = new StringBuilder();
        for (int i = 0; i < steps.length; i++) {
            boolean numbered = i == 1 && steps[0].equals("amendments");
            if (i == 0 && steps.length > 1 && steps[0].equals("amendments")) {
                words.append("amendment");
            } else if (numbered) {
                words.append(' ').append(Integer.parseInt(steps[i]) + 1);
            } else {
                words.append(i > 0 ? ": " : "").append(steps[i]);
            }
        }
        return words.toString();
    }
}
