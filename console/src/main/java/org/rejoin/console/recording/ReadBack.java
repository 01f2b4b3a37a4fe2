package org.rejoin.console.recording;

import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.bridge.flight.FlightEvent;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * How a clearance was read back.
 *
 * @param elapsedS when, seconds since the first sample
 * @param heard what was read back, in words; empty text where the elements were tapped
 * @param talk of which clearance, how and when it came
 * @param elements of the clearance, each with its verdict
 */
public record ReadBack(double elapsedS, String seat, String heard, Talk talk, List<Element> elements)
        implements InstructorFile.Note {
    public ReadBack {
        elements = List.copyOf(elements);
    }

    /**
     * How a readback came.
     *
     * @param number of the clearance, 1 for the first issued; 0 in recordings of before it was kept
     * @param how heard, tapped, typed, or marked where the instructor changed the marks of one
     * @param recognised what the recogniser heard; empty text where none listened
     * @param issuedS when the clearance was issued, seconds since the first sample; empty where not known
     * @param beganS when the pilot began to talk, likewise; empty where he typed
     * @param endedS when he ended, likewise
     */
    public record Talk(
            int number,
            String how,
            String recognised,
            OptionalDouble issuedS,
            OptionalDouble beganS,
            OptionalDouble endedS) {

        /** The keyboard tells nothing of how long he talked: what was typed has no times. */
        public Talk {
            if (how.equals("typed")) {
                beganS = OptionalDouble.empty();
                endedS = OptionalDouble.empty();
            }
        }

        /** {@return seconds from when the clearance was issued until he began to talk; empty where not known} */
        public OptionalDouble copiedInS() {
            return between(issuedS, beganS);
        }

        /** {@return seconds that he talked; empty where not known} */
        public OptionalDouble readInS() {
            return between(beganS, endedS);
        }

        private static OptionalDouble between(OptionalDouble from, OptionalDouble to) {
            return from.isPresent() && to.isPresent() && to.getAsDouble() >= from.getAsDouble()
                    ? OptionalDouble.of(to.getAsDouble() - from.getAsDouble())
                    : OptionalDouble.empty();
        }
    }

    /**
     * One element.
     *
     * @param what it is, as heading or altitude
     * @param cleared in ATC's words
     * @param found as read back, in ATC's words; empty text where missing or not known
     * @param verdict right, wrong, missing or unclear
     */
    public record Element(String what, String cleared, String found, String verdict) {}

    @Override
    public String lost() {
        return "the readback cannot be kept";
    }

    @Override
    public void writeTo(InstructorFile file) throws IOException {
        ObjectNode line = KeptLines.line(elapsedS, seat);
        line.put("heard", heard);
        line.put("clearance", talk.number());
        line.put("how", talk.how());
        if (!talk.recognised().isEmpty()) {
            line.put("recognised", talk.recognised());
        }
        talk.issuedS().ifPresent(time -> line.put("issued_s", time));
        talk.beganS().ifPresent(time -> line.put("began_s", time));
        talk.endedS().ifPresent(time -> line.put("ended_s", time));
        ArrayNode all = line.putArray("elements");
        elements.forEach(each -> all.addObject()
                .put("what", each.what())
                .put("cleared", each.cleared())
                .put("found", each.found())
                .put("verdict", each.verdict())
                .put("must", Readback.isDue(each.what())));
        file.file(InstructorFile.READBACKS).append(line);
    }

    /** {@return what it is worth as a whole; right, wrong or unclear} */
    public Readback.Outcome outcome() {
        return Readback.outcome(elements.stream()
                .map(each -> new Readback.Element(each.what(), verdict(each.verdict()), each.cleared(), each.found()))
                .toList());
    }

    private static Readback.Verdict verdict(String word) {
        return switch (word) {
            case "right" -> Readback.Verdict.RIGHT;
            case "missing" -> Readback.Verdict.MISSING;
            case "unclear" -> Readback.Verdict.UNCLEAR;
            default -> Readback.Verdict.WRONG;
        };
    }

    /** As the flight's record tells it. */
    public FlightEvent event() {
        return new FlightEvent.ReadBack(
                elapsedS,
                talk.number(),
                talk.how(),
                outcome().name().toLowerCase(Locale.ROOT),
                elements.stream()
                        .map(each -> (each.cleared().isEmpty()
                                        ? Readback.said(each.what(), each.found())
                                        : Readback.called(each.what()))
                                + " " + each.verdict())
                        .collect(Collectors.joining(", ")),
                talk.copiedInS(),
                talk.readInS());
    }
}
