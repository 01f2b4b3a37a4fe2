package org.rejoin.bridge.learn;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;

import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.profile.Layout;
import org.rejoin.protocol.profile.Message;
import org.rejoin.protocol.profile.Profile;
import org.rejoin.protocol.profile.Quantity;
import org.rejoin.protocol.profile.Value;

/**
 * What was worked out of a feed.
 *
 * @param framing how the datagrams are taken apart, in words
 * @param layouts the same for a profile, that of the position first; empty where nothing was recognised
 * @param findings sure ones first
 * @param questions what would settle the rest: a question, or a manoeuvre to fly; empty where all needed fields are sure
 * @param notes remarks on the feed and the flight
 * @param flown what of the script was flown
 */
public record Learned(
        String framing,
        List<Layout> layouts,
        List<Finding> findings,
        List<String> questions,
        List<String> notes,
        ScriptFlown flown) {

    /**
     * One field and what it is taken to be.
     *
     * @param value the field as a profile names it
     * @param message in which kind of datagram, by its layout from 0
     * @param sure whether it may be used without asking
     * @param confidence [0, 1]; 0.9 or more only where sure
     * @param place where it stands, in words
     * @param evidence what speaks for it, one line
     */
    public record Finding(Value value, int message, boolean sure, double confidence, String place, String evidence) {

        /** {@return the confidence in a word; high, medium or low} */
        public String word() {
            return confidence >= 0.9 ? "high" : confidence >= 0.6 ? "medium" : "low";
        }
    }

    /** How the one question begins that needs no second flight. */
    static final String ALTIMETER = "what did the altimeter show at the end";

    /** Keeps copies. */
    public Learned {
        layouts = List.copyOf(layouts);
        findings = List.copyOf(findings);
        questions = List.copyOf(questions);
        notes = List.copyOf(notes);
    }

    /** The profile of what is sure; empty while the position is not sure. */
    public Optional<Profile> profile(String name) {
        List<Message> messages = new ArrayList<>();
        for (int message = 0; message < layouts.size(); message++) {
            int which = message;
            List<Value> values = sureOnes().stream()
                    .filter(finding -> finding.message == which)
                    .map(Finding::value)
                    .toList();
            if (!values.isEmpty()) {
                messages.add(new Message(layouts.get(message), values));
            }
        }
        return position() && !messages.isEmpty()
                ? Optional.of(new Profile(name, OptionalDouble.empty(), messages))
                : Optional.empty();
    }

    /** As they stand in a profile: one message after the other. */
    private List<Finding> sureOnes() {
        return findings.stream()
                .filter(Finding::sure)
                .sorted(Comparator.comparingInt(Finding::message))
                .toList();
    }

    /** Whether a quantity was found for sure. */
    public boolean sure(Quantity quantity) {
        return findings.stream().anyMatch(f -> f.sure() && f.value().is() == quantity);
    }

    private boolean allSure(Quantity... quantities) {
        return Stream.of(quantities).allMatch(this::sure);
    }

    private boolean position() {
        return allSure(Quantity.LATITUDE, Quantity.LONGITUDE) || geocentric();
    }

    private boolean geocentric() {
        return allSure(Quantity.ECEF_X, Quantity.ECEF_Y, Quantity.ECEF_Z);
    }

    /**
     * {@return whether position, altitude, heading or track, and speed are all sure; false if anything is left to settle}
     */
    public boolean complete() {
        return missing().isEmpty();
    }

    /**
     * Whether listening on would settle no more: all that is needed is sure, and roll and vertical speed are too or the
     * whole script was flown; false while there is something to fly.
     */
    public boolean settled() {
        boolean vertical = sure(Quantity.VERTICAL_SPEED) || sure(Quantity.VELOCITY_DOWN) || geocentric();
        return complete() && (flown.whole() || (vertical && sure(Quantity.ROLL)));
    }

    /**
     * Whether the pilot can settle all that is open by saying what the altimeter showed when the flight ended: nothing
     * that is flown would; false where there is another question, or none.
     */
    public boolean needsAltimeterAlone() {
        return questions.size() == 1 && questions.get(0).startsWith(ALTIMETER);
    }

    /** Needed fields that are not sure; of position, altitude, heading or track, speed. */
    public List<String> missing() {
        List<String> missing = new ArrayList<>();
        if (!position()) {
            missing.add("position");
        }
        if (!sure(Quantity.ALTITUDE_MSL) && !geocentric()) {
            missing.add("altitude");
        }
        boolean components = allSure(Quantity.VELOCITY_NORTH, Quantity.VELOCITY_EAST)
                || allSure(Quantity.ECEF_VELOCITY_X, Quantity.ECEF_VELOCITY_Y, Quantity.ECEF_VELOCITY_Z);
        if (!sure(Quantity.TRUE_HEADING)
                && !sure(Quantity.MAGNETIC_HEADING)
                && !sure(Quantity.TRUE_TRACK)
                && !components) {
            missing.add("heading or track");
        }
        if (!sure(Quantity.GROUND_SPEED) && !components) {
            missing.add("speed");
        }
        return missing;
    }

    /**
     * The profile as a file, with the evidence, and unsure fields ready to be taken in, as comments; without a sure
     * position it is no profile yet.
     */
    public String yaml(String name) {
        StringBuilder out = new StringBuilder("# Worked out from a recorded flight: " + framing + ".\n");
        notes.forEach(note -> out.append("# ").append(note).append('\n'));
        questions.forEach(
                question -> out.append("# To settle: ").append(question).append('\n'));
        Optional<Profile> profile = profile(name);
        if (profile.isEmpty()) {
            return out + "# The position is not sure, so there is no profile yet.\n" + unsure();
        }
        List<Finding> sure = sureOnes();
        int at = 0;
        for (String line : profile.get().toYaml().lines().toList()) {
            int indent = line.indexOf("- {");
            if (indent >= 0 && line.substring(0, indent).isBlank() && at < sure.size()) {
                out.append(" ".repeat(indent))
                        .append("# ")
                        .append(remark(sure.get(at++)))
                        .append('\n');
            }
            out.append(line).append('\n');
        }
        return out + unsure();
    }

    private String unsure() {
        StringBuilder out = new StringBuilder();
        for (Finding finding : findings) {
            if (!finding.sure()) {
                Value value = finding.value();
                String at = value.key().isEmpty() ? String.valueOf(value.at()) : PlainText.of(value.key(), 80);
                out.append("  # unsure: ").append(remark(finding)).append('\n');
                out.append("  # - {is: ")
                        .append(value.is().text())
                        .append(
                                value.index().isPresent()
                                        ? ", index: " + value.index().getAsInt()
                                        : "")
                        .append(", at: ")
                        .append(at)
                        .append(value.type().map(t -> ", type: " + t.text()).orElse(""))
                        .append(", unit: ")
                        .append(value.unit().text())
                        .append(value.scale() == 1 ? "" : ", scale: " + value.scale())
                        .append("}\n");
            }
        }
        return out.toString();
    }

    private static String remark(Finding finding) {
        return String.format(
                        Locale.ROOT,
                        "%s: confidence %s (%.2f): %s",
                        finding.value().is().text(),
                        finding.word(),
                        finding.confidence(),
                        finding.evidence())
                .replaceAll("[\\r\\n]", " ");
    }
}
