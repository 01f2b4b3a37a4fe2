package org.rejoin.console.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.geo.Position;

/**
 * Numbers and lines as a pilot reads them, the same on every machine. A whole direction to set is said by
 * {@link org.rejoin.bridge.geo.Angles#figures(double)}.
 */
public final class Words {

    /** Where nobody says how wide the lines may be. */
    public static final int WIDTH = 100;

    /** Stands on every page, report and help. */
    public static final String CAUTION =
            "For simulation and training only. Not for navigation. Follow local rules and your instructor.";

    /** What an instructor does about something of a clearance that nobody else watches. */
    public static final String WATCH_IT = "watch it yourself and make a remark, or issue each part when it is due";

    private static final String[] COMPASS = {
        "north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"
    };

    private Words() {}

    /** Of a flight in which no person's skill is seen. */
    public static String flownByPractice(String habit) {
        return "Flown by the practice aircraft (" + habit + "), not by a person.";
    }

    /**
     * A text with its values, as {@link String#format(String, Object...)} makes it, with a decimal point in every
     * country.
     */
    public static String say(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }

    /**
     * A time of the flight, seconds since the first sample, as a clock: hours (if any), minutes, seconds with one
     * decimal.
     */
    public static String clock(double timeS) {
        long tenths = Math.round(timeS * 10);
        long minutes = tenths / 600;
        String rest = say("%02d.%d", tenths / 10 % 60, tenths % 10);
        return minutes >= 60 ? say("%d:%02d:%s", minutes / 60, minutes % 60, rest) : say("%02d:%s", minutes, rest);
    }

    /** A time to fly, minutes, as "2 min 54 s". */
    public static String minutes(double minutes) {
        long seconds = Math.round(minutes * 60);
        return say("%d min %02d s", seconds / 60, seconds % 60);
    }

    /**
     * A direction, degrees, 0 to 360, in three figures, north is 360; tenths only where it has them: "066" or "066.4".
     */
    public static String direction(double deg) {
        double tenths = Math.round(deg * 10) / 10.0 % 360;
        double named = tenths == 0 ? 360 : tenths;
        return Math.abs(named - Math.rint(named)) < 0.05 ? say("%03.0f", named) : say("%05.1f", named);
    }

    /** A direction to tenths of a degree, as computed fixes need it; north is 360.0: "066.4". */
    public static String tenths(double deg) {
        double tenths = Math.round(deg * 10) / 10.0 % 360;
        return say("%05.1f", tenths == 0 ? 360 : tenths);
    }

    /** A variation or a declination, degrees, east positive, as "12.3 west". */
    public static String variation(double eastDeg) {
        return say("%.1f %s", Math.abs(eastDeg), eastDeg < 0 ? "west" : "east");
    }

    /** Words as they begin a sentence. */
    public static String sentence(String words) {
        return Character.toUpperCase(words.charAt(0)) + words.substring(1);
    }

    /**
     * "left" or "right", by anything whose sign tells it, right positive: cross-track, an error of heading, degrees of
     * a turn.
     */
    public static String side(double rightPositive) {
        return side(rightPositive >= 0);
    }

    /** "left" or "right", a side or the way of a turn. */
    public static String side(boolean right) {
        return right ? "right" : "left";
    }

    /** An error of altitude, feet, high positive, as "120 ft low". */
    public static String highOrLow(double errorFt) {
        return say("%.0f ft %s", Math.abs(errorFt), errorFt < 0 ? "low" : "high");
    }

    /** So many of something, as "3 legs"; its plural takes an "s". */
    public static String count(int number, String what) {
        return number + " " + what + (number == 1 ? "" : "s");
    }

    /** A frequency as it is tuned, as "113.40 MHz"; an NDB is tuned in kHz. */
    public static String frequency(Station.Kind kind, double mhz) {
        double khz = Math.rint(mhz * 10_000) / 10;
        return kind == Station.Kind.NDB
                ? say(khz == Math.rint(khz) ? "%.0f kHz" : "%.1f kHz", khz)
                : say("%.2f MHz", mhz);
    }

    /** A place in degrees and minutes to a thousandth, as it is typed into a navigator: N38°12.000' W049°55.200'. */
    public static String place(Position position) {
        return angle(position.latitudeDeg(), "%02d", position.latitudeDeg() < 0 ? "S" : "N") + " "
                + angle(position.longitudeDeg(), "%03d", position.longitudeDeg() < 0 ? "W" : "E");
    }

    /** Rounded first, so that no minutes are 60. */
    private static String angle(double deg, String whole, String hemisphere) {
        long thousandths = Math.round(Math.abs(deg) * 60_000);
        return hemisphere + say(whole, thousandths / 60_000) + say("\u00b0%06.3f'", thousandths % 60_000 / 1000.0);
    }

    /**
     * A place in decimal degrees, latitude, longitude, north and east positive, as it is typed into a simulator or a
     * lesson.
     */
    public static String decimal(Position position) {
        return say("%.6f, %.6f", position.latitudeDeg(), position.longitudeDeg());
    }

    /**
     * A direction, degrees, [0, 360), as one of eight points of the compass: "north-east"; beside magnetic numbers a
     * magnetic direction or a radial.
     */
    public static String compass(double deg) {
        return COMPASS[(int) Math.round(deg / 45) % 8];
    }

    /**
     * A long text in lines, broken at its spaces: the first after the indent, the others as far to the right, of at
     * most so many characters; a word that is longer stands alone.
     */
    public static List<String> wrapped(String indent, String text, int width) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder(indent);
        boolean empty = true;
        for (String word : text.trim().split("\\s+", -1)) {
            if (!empty && line.length() + 1 + word.length() > width) {
                lines.add(line.toString());
                line = new StringBuilder(" ".repeat(indent.length()));
                empty = true;
            }
            line.append(empty ? "" : " ").append(word);
            empty = false;
        }
        lines.add(line.toString());
        return lines;
    }
}
