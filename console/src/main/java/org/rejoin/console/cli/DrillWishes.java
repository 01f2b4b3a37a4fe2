package org.rejoin.console.cli;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.drill.Band;
import org.rejoin.console.drill.DrillRequest;
import org.rejoin.console.skill.Shape;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** The options that say what a drill is to be like. */
final class DrillWishes {

    private static final Pattern WIND = Pattern.compile("(\\d+(?:\\.\\d+)?)/(\\d+(?:\\.\\d+)?)");

    @Option(
            names = "--shape",
            paramLabel = "SHAPE",
            defaultValue = "any",
            description =
                    "A heading to an airway, B radial inbound, C radial outbound, radials one until another, arc, hold,"
                            + " any (default: any).")
    String shape = "any";

    @Option(
            names = "--seed",
            paramLabel = "N",
            defaultValue = "1",
            description = "Another number, another drill (default: 1).")
    long seed = 1;

    @Option(
            names = "--angle",
            paramLabel = "LO-HI",
            description = "Intercept angle, degrees, 20 to 90 (default: 25-75).")
    @Nullable
    String angle;

    @Option(
            names = "--minutes",
            paramLabel = "LO-HI",
            description = "From the clearance to the line, minutes, 0.5 to 10 (default: 2-4.5).")
    @Nullable
    String minutes;

    @Option(names = "--speed", paramLabel = "KT", description = "True airspeed, knots, 60 to 300 (default: 120).")
    @Nullable
    Double speed;

    @Option(
            names = "--wind",
            paramLabel = "DIR_TRUE/KT",
            description = "Where the wind blows from, degrees true, and knots (default: drawn).")
    @Nullable
    String wind;

    @Option(
            names = "--date",
            paramLabel = "YYYY-MM-DD",
            description = "Day of the flight, for the magnetic variation (default: 2026-06-01, so that a drill does not"
                    + " change from day to day).")
    @Nullable
    String date;

    @Option(
            names = "--extras",
            paramLabel = "any|none",
            defaultValue = "any",
            description = "Whether an altitude or a speed may be assigned beside the line (default: any).")
    String extras = "any";

    /**
     * What was wished for.
     *
     * @throws BadInput if an option makes no sense
     */
    DrillRequest request() throws BadInput {
        if (!extras.equals("any") && !extras.equals("none")) {
            throw new BadInput("--extras \"" + extras + "\" is neither any nor none");
        }
        double knots = speed == null ? DrillRequest.USUAL_SPEED_KT : speed;
        if (!(knots >= 60 && knots <= 300)) {
            throw new BadInput("--speed " + speed + " is not in 60 to 300 knots");
        }
        return new DrillRequest(
                seed,
                shape(),
                angle == null ? DrillRequest.USUAL_ANGLE : band("--angle", angle, 20, 90, "degrees"),
                minutes == null ? DrillRequest.USUAL_MINUTES : band("--minutes", minutes, 0.5, 10, "minutes"),
                knots,
                wind(),
                date(),
                !extras.equals("none"));
    }

    private Optional<Shape> shape() throws BadInput {
        if (shape.trim().toLowerCase(Locale.ROOT).equals("any")) {
            return Optional.empty();
        }
        return Optional.of(Shape.named(shape)
                .orElseThrow(() -> new BadInput("--shape \"" + shape + "\" is none of "
                        + Arrays.stream(Shape.values()).map(Shape::option).collect(Collectors.joining(", "))
                        + ", any")));
    }

    private static Band band(String option, String text, double least, double most, String unit) throws BadInput {
        try {
            return Band.of(text, least, most, unit);
        } catch (IllegalArgumentException e) {
            throw new BadInput(option + " " + e.getMessage());
        }
    }

    private Optional<Wind> wind() throws BadInput {
        if (wind == null) {
            return Optional.empty();
        }
        Matcher matcher = WIND.matcher(wind.trim());
        boolean plain = matcher.matches();
        if (!plain || Double.parseDouble(matcher.group(1)) > 360 || Double.parseDouble(matcher.group(2)) > 300) {
            throw new BadInput("--wind \"" + wind + "\" is not DIRECTION_TRUE/KNOTS, for example 270/20");
        }
        return Optional.of(new Wind(
                new TrueDirection(Double.parseDouble(matcher.group(1))), Double.parseDouble(matcher.group(2))));
    }

    private LocalDate date() throws BadInput {
        if (date == null) {
            return DrillRequest.USUAL_DATE;
        }
        try {
            LocalDate day = LocalDate.parse(date);
            Optional<String> otherDay = MagneticModel.notPublishedFor(day);
            if (otherDay.isPresent()) {
                throw new BadInput("--date " + date + ": " + otherDay.get());
            }
            return day;
        } catch (DateTimeParseException e) {
            throw new BadInput(
                    "--date \"" + date + "\" is not a day written YYYY-MM-DD, for example " + DrillRequest.USUAL_DATE);
        }
    }
}
