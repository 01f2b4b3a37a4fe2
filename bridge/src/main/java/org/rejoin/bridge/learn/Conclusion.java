package org.rejoin.bridge.learn;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.protocol.profile.Quantity;
import org.rejoin.protocol.profile.Unit;

/** Decides what is sure, and asks for the rest. Used once. */
final class Conclusion {

    private static final double TURN_DEG = 270;
    private static final double CLIMB_FT = 300;
    /** Wind over speed that gives two degrees of drift. */
    private static final double DRIFT = 0.035;

    /** Votes by which the best must be ahead of the next to be sure. */
    private static final double MARGIN = 1.0;

    /** Eight knots. */
    private static final double FASTER_MPS = 4.1;

    private static final double BACK_DEG = 20;

    private final Frame frame;
    private final Grid grid;
    private final Motions.Scored best;
    private final List<Motions.Scored> positions;
    private final Known known;
    private final List<String> notes;
    private final Findings findings = new Findings();
    private final Motion motion;
    private final boolean turned;
    private final double speedMps;
    private final double windShare;
    private boolean climbed;
    /** Once it is sure. */
    private double[] altitudeFt = {};

    Conclusion(Frame frame, Grid grid, List<Motions.Scored> positions, Known known, List<String> notes) {
        this.frame = frame;
        this.grid = grid;
        this.positions = positions;
        this.best = positions.get(0);
        this.motion = best.motion();
        this.known = known;
        this.notes = new ArrayList<>(notes);
        this.turned = motion.turnedDeg() >= TURN_DEG;
        this.speedMps = motion.medianMps();
        double[] wind = motion.wind(grid);
        this.windShare = Math.hypot(wind[0], wind[1]) / speedMps;
    }

    /** Decides. */
    Learned learned(double seconds) {
        boolean sure = position();
        directions(sure);
        speed(sure);
        roll(sure);
        vertical(sure);
        airspeed(sure);
        ClockField.find(frame, findings);
        if (!turned) {
            findings.ask("fly one full turn at 15 to 25 degrees of bank");
        } else if (windShare < DRIFT) {
            findings.ask(
                    "set a wind of 10 to 25 kt and fly a full turn: in calm air heading and track, and airspeed and"
                            + " ground speed, read the same");
        }
        ScriptFlown flown = new ScriptFlown(seconds, true, turned, windShare >= DRIFT, climbed, faster(), turnedBack());
        Learned draft = new Learned(
                frame.words(), frame.layouts(findings.claimed()), findings.findings(), List.of(), notes, flown);
        return new Learned(
                frame.words(), draft.layouts(), findings.findings(), findings.questions(draft), notes, flown);
    }

    /** Whether the speed through the air changed; a gust or the noise of the positions is less. */
    private boolean faster() {
        double[] sorted = motion.airspeedMps(motion.wind(grid));
        Arrays.sort(sorted);
        return sorted[sorted.length - 1 - sorted.length / 50] - sorted[sorted.length / 2] > FASTER_MPS;
    }

    /** Whether the track went back at least so far from where it had turned to. */
    private boolean turnedBack() {
        double[] track = motion.trackDeg();
        double rightMost = track[0];
        double leftMost = track[0];
        boolean backFromRight = false;
        boolean backFromLeft = false;
        for (double deg : track) {
            rightMost = Math.max(rightMost, deg);
            leftMost = Math.min(leftMost, deg);
            backFromRight |= rightMost - deg > BACK_DEG;
            backFromLeft |= deg - leftMost > BACK_DEG;
        }
        return backFromRight && backFromLeft;
    }

    private boolean position() {
        double margin = 4;
        String next = "none";
        for (Motions.Scored other : positions) {
            if (!other.motion().sameAs(motion)) {
                margin = best.score() - other.score();
                next = other.motion().place().words();
                break;
            }
        }
        boolean voted = !best.speeds().isEmpty()
                || !best.components().isEmpty()
                || (turned && !best.directions().isEmpty());
        boolean sure = margin > MARGIN && voted;
        double confidence = sure ? 1 - 0.1 * Math.exp(MARGIN - margin) : 0.8 * (1 - Math.exp(-Math.max(0, margin)));
        String evidence = String.format(
                Locale.ROOT,
                "%d directions, %d speeds and %d rolls of the record follow its motion; next best position (%s) %.1f behind",
                best.directions().size(),
                best.speeds().size() + best.components().size(),
                best.rolls().size(),
                next,
                margin);
        PositionFields place = motion.place();
        for (int i = 0; i < place.spots().size(); i++) {
            findings.add(place.quantities().get(i), place.spots().get(i), place.scale(), sure, confidence, evidence);
        }
        if (!sure) {
            findings.ask("two readings of the position fit nearly as well: fly a full turn in a wind, and let the"
                    + " simulator send heading and ground speed as well");
        }
        return sure;
    }

    private void directions(boolean positionSure) {
        double variation = known.variationDeg(motion);
        notes.add(String.format(
                Locale.ROOT,
                "variation %.1f %s %s",
                Math.abs(variation),
                variation < 0 ? "west" : "east",
                known.variationDeg().isPresent() ? "as told" : "by the magnetic model at the place and date"));
        List<Quantity> taken = new ArrayList<>();
        boolean ownVariationSaid = false;
        for (Directions.Found found : best.directions()) {
            if (found.rmsDeg() > 1.6 && !taken.isEmpty()) {
                continue;
            }
            double offTrue = Math.abs(found.offsetDeg());
            double offMagnetic = Math.abs(Math.IEEEremainder(found.offsetDeg() - variation, 360));
            boolean magnetic = offMagnetic < offTrue;
            double nearest = Math.min(offTrue, offMagnetic);
            double other = Math.max(offTrue, offMagnetic);
            if (nearest > 3) {
                continue;
            }
            // A simulator has its true north to a tenth of a degree, and a magnetic model that may be ten years old.
            boolean stale = magnetic
                    && nearest >= 1.3
                    && offTrue > 3
                    && known.variationDeg().isEmpty();
            boolean north = (nearest < 1.3 && other - nearest > 0.9) || stale;
            double share = found.windMps() / speedMps;
            boolean track = share < 0.4 * Math.max(windShare, DRIFT);
            boolean drift = turned && windShare >= DRIFT && (share < 0.3 * windShare || share > 0.7 * windShare);
            Quantity is = track
                    ? magnetic ? Quantity.MAGNETIC_TRACK : Quantity.TRUE_TRACK
                    : magnetic ? Quantity.MAGNETIC_HEADING : Quantity.TRUE_HEADING;
            boolean sure = positionSure && north && drift && found.rmsDeg() < 1.6;
            if (taken.contains(is)) {
                continue;
            }
            taken.add(is);
            String evidence = String.format(
                    Locale.ROOT,
                    "turns with the track to %.1f deg%s; %.1f deg off true, %.1f deg off magnetic",
                    found.rmsDeg(),
                    turned
                            ? String.format(
                                    Locale.ROOT,
                                    ", drift up to %.1f deg",
                                    Math.toDegrees(Math.asin(Math.min(1, share))))
                            : "",
                    offTrue,
                    offMagnetic);
            double confidence = sure ? 1 - 0.1 * Math.exp(-(other - nearest)) : north || drift ? 0.6 : 0.3;
            findings.add(is, found.spot(), found.scale(), sure, confidence, evidence);
            if (stale && sure && !ownVariationSaid) {
                ownVariationSaid = true;
                notes.add(String.format(
                        Locale.ROOT,
                        "the simulator's own variation is %.1f %s, %.1f degrees from the magnetic model's",
                        Math.abs(found.offsetDeg()),
                        found.offsetDeg() < 0 ? "west" : "east",
                        nearest));
            }
            if (!north) {
                findings.ask(String.format(
                        Locale.ROOT,
                        "true or magnetic? The variation here is %.1f deg and the field in %s is %.1f deg off true: fly"
                                + " where the variation is larger, or give --variation as the simulator has it",
                        variation,
                        found.spot().words(),
                        found.offsetDeg()));
            }
        }
    }

    private void speed(boolean positionSure) {
        double limit = 0.4 * windShare + 0.003;
        boolean windy = turned && windShare >= DRIFT;
        boolean found = false;
        for (Rates.Found speed : best.speeds()) {
            if (findings.isClaimed(speed.spot())) {
                continue;
            }
            boolean sure = positionSure && windy && speed.residual() < limit;
            String evidence = String.format(
                    Locale.ROOT,
                    "follows the speed of the positions to %.1f %%, unit to %.1f %%",
                    100 * speed.residual(),
                    100 * speed.off());
            findings.add(Quantity.GROUND_SPEED, speed.spot(), speed.scale(), sure, sure ? 0.97 : 0.5, evidence);
            found = sure;
            break;
        }
        for (Rates.Found component : best.components()) {
            component(component, positionSure);
            found = true;
        }
        if (!found && windy) {
            findings.ask("no field is the ground speed: let the simulator send it");
        }
    }

    private void component(Rates.Found found, boolean positionSure) {
        if (!findings.isClaimed(found.spot())) {
            String evidence = String.format(
                    Locale.ROOT, "follows the motion of the positions to %.1f %%", 100 * found.residual());
            findings.add(
                    found.is(), found.spot(), found.scale(), positionSure && turned, turned ? 0.97 : 0.5, evidence);
        }
    }

    private void roll(boolean positionSure) {
        for (Rates.Found roll : best.rolls()) {
            if (!findings.isClaimed(roll.spot())) {
                String evidence = String.format(
                        Locale.ROOT,
                        "follows from speed and rate of turn, correlation %.3f, slope to %.0f %%",
                        Math.sqrt(roll.r2()),
                        100 * roll.off());
                findings.add(
                        Quantity.ROLL,
                        roll.spot(),
                        roll.scale(),
                        positionSure && turned,
                        turned ? 0.95 : 0.5,
                        evidence);
                return;
            }
        }
    }

    private void vertical(boolean positionSure) {
        Vertical vertical = new Vertical(frame, grid, motion, velocityScale(), findings.claimed(), known.altimeterFt());
        List<Altitude> found = vertical.search();
        if (motion.heightM().length > 0 && found.stream().noneMatch(f -> f.score() > 1.2)) {
            climbed = Grid.Smooth.range(motion.heightM()) >= CLIMB_FT * Unit.FT.factor();
            vertical.rateOfThePosition()
                    .ifPresent(rate -> rate(
                            rate.spot(),
                            rate.scale(),
                            positionSure && climbed,
                            rate.r2(),
                            "is the climb of the position"));
            return;
        }
        if (found.isEmpty()) {
            findings.ask(
                    "no field moves like an altitude: climb at least 500 ft at a steady rate, and let the simulator"
                            + " send its altitude");
            return;
        }
        Altitude first = found.get(0);
        double margin = 4;
        Altitude rival = first;
        String next = "none";
        for (Altitude other : found) {
            if (!other.sameAs(first) && !other.isPieceOf(first)) {
                margin = first.score() - other.score();
                next = other.spot().words() + " in " + other.scale().words() + ", " + other.words();
                rival = other;
                break;
            }
        }
        // Feet or metres: how far it climbed is told by the unit, and that by the altimeter.
        boolean open = margin <= MARGIN && !rival.equals(first);
        climbed = Math.max(first.spreadFt(), open ? rival.spreadFt() : 0) >= CLIMB_FT;
        boolean sure = positionSure
                && margin > MARGIN
                && climbed
                && first.score() > 1.2
                && !first.contradicts(known.altimeterFt());
        altitudeFt = sure ? first.feet() : altitudeFt;
        double confidence = sure ? 1 - 0.1 * Math.exp(MARGIN - margin) : 0.5;
        String evidence = String.format(
                Locale.ROOT,
                "%s; next best (%s) %.1f behind; climbed %.0f ft%s",
                first.words(),
                next,
                margin,
                first.spreadFt(),
                open ? String.format(Locale.ROOT, ", or %.0f ft by the next best", rival.spreadFt()) : "");
        findings.add(Quantity.ALTITUDE_MSL, first.spot(), first.scale(), sure, confidence, evidence);
        first.rate()
                .ifPresent(rate -> rate(rate.spot(), rate.scale(), sure, confidence, "is the slope of the altitude"));
        first.pitch()
                .ifPresent(pitch -> findings.add(
                        Quantity.PITCH,
                        pitch.spot(),
                        pitch.scale(),
                        sure && pitch.r2() > 0.7,
                        confidence,
                        "is the climb angle and the angle of attack"));
        if (!climbed) {
            findings.ask("climb at least 500 ft at a steady rate");
        } else if (!sure) {
            findings.ask(altimeter(first, rival));
        }
    }

    private void rate(Spot spot, Scale scale, boolean sure, double confidence, String evidence) {
        boolean down = isDown(scale);
        findings.add(
                down ? Quantity.VELOCITY_DOWN : Quantity.VERTICAL_SPEED,
                spot,
                down ? scale.reversed() : scale,
                sure,
                confidence,
                evidence);
    }

    /** Without the figures that were received: who reads them in the question answers with them. */
    private String altimeter(Altitude first, Altitude rival) {
        String asked = Learned.ALTIMETER + ", in feet? Say it with --altimeter: ";
        if (first.contradicts(known.altimeterFt())) {
            return Learned.ALTIMETER
                    + String.format(
                            Locale.ROOT, "? %.0f ft", known.altimeterFt().orElseThrow())
                    + " is not where any field ends that moves like an altitude; look again, and at its setting";
        }
        if (rival.equals(first)) {
            return asked + "nothing but that speaks for " + in(first);
        }
        return asked
                + (rival.spot().overlaps(first.spot())
                        ? "the altitude in " + in(first) + " may as well be in "
                                + rival.scale().words()
                        : "the altitude is " + in(first) + ", or " + in(rival));
    }

    private static String in(Altitude altitude) {
        return altitude.spot().words() + " in " + altitude.scale().words();
    }

    private void airspeed(boolean positionSure) {
        boolean windy = turned && windShare >= DRIFT;
        if (positionSure && windy && altitudeFt.length == grid.size()) {
            new Airspeed(grid, motion, altitudeFt).find(frame, grid, findings);
        }
    }

    private Optional<Scale> velocityScale() {
        List<Scale> scales = best.components().stream().map(Rates.Found::scale).toList();
        return !scales.isEmpty() && scales.stream().allMatch(scales.get(0)::measuresAs)
                ? Optional.of(scales.get(0))
                : Optional.empty();
    }

    /** Counted the other way beside components toward north and east, it is the third of them. */
    private boolean isDown(Scale rate) {
        return rate.scale() < 0 && !best.components().isEmpty();
    }
}
