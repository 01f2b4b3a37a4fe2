package org.rejoin.console.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.draw.Markup;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.recording.ReadBack;
import org.rejoin.console.recording.Said;

import org.junit.jupiter.api.Test;

/** How the clearances were read back, on paper. */
class ReadbackTableTest {

    private static ReadBack readback(double atS, String how, String heading) {
        return new ReadBack(
                atS,
                "s",
                how.equals("heard") ? "heading one <one> zero" : "",
                new ReadBack.Talk(1, how, "", OptionalDouble.of(30), OptionalDouble.of(36.5), OptionalDouble.of(41)),
                List.of(
                        new ReadBack.Element("heading", "heading one one zero", "heading one zero one", heading),
                        new ReadBack.Element("altitude", "six thousand", "", "unclear"),
                        new ReadBack.Element("onward", "then as filed", "", "missing")));
    }

    /** In the log, live and in the debrief, an element is named once, and words that nobody understood are said. */
    @Test
    void whatIsNoPartOfTheClearanceIsSaidWithItsWords() {
        ReadBack readback = new ReadBack(
                41,
                "s",
                "blah until established",
                new ReadBack.Talk(
                        1, "typed", "", OptionalDouble.of(30), OptionalDouble.empty(), OptionalDouble.empty()),
                List.of(
                        new ReadBack.Element("until", "until established", "", "missing"),
                        new ReadBack.Element("words", "", "blah blah", "wrong"),
                        new ReadBack.Element("words", "", "whatever", "wrong"),
                        new ReadBack.Element("airway", "", "victor forty", "wrong")));
        assertThat(((FlightEvent.ReadBack) readback.event()).marks())
                .isEqualTo("until missing, \"blah blah\" wrong, \"whatever\" wrong, airway victor forty wrong");
        Markup out = new Markup();
        new ReadbackTable(out, new Said(List.of(), List.of(), List.of(readback), List.of())).write();
        assertThat(out.document())
                .contains("blah blah", "whatever", "no part of the clearance")
                .doesNotContain("until until", "words:");
        assertThat(Readback.said("until", "until established")).isEqualTo("until established");
        assertThat(Readback.said("heading", "one one zero")).isEqualTo("heading one one zero");
        assertThat(Readback.said("turn", "left turn")).isEqualTo("left turn");
    }

    @Test
    void timesElementsAndWhatTheInstructorChanged() {
        Markup out = new Markup();
        ReadbackTable table = new ReadbackTable(
                out,
                new Said(
                        List.of(),
                        List.of(),
                        List.of(readback(41, "heard", "wrong"), readback(60, "marked", "right")),
                        List.of(new InstructorFile.Again(33, "s", 1), new InstructorFile.Again(34, "s", 1))));
        assertThat(table.isEmpty()).isFalse();
        table.write();
        assertThat(out.document())
                .contains("by voice: \u201cheading one &lt;one&gt; zero\u201d", "6.5 s", "4.5 s")
                .contains("\u25b2 heading: heading one zero one, cleared heading one one zero")
                .contains("? altitude: not clear, cleared six thousand", "rest of the route: left out, as it may be")
                .contains("changed by the instructor", "Clearance 1 was asked for again 2 times.");
        assertThat(new ReadbackTable(new Markup(), Said.NOTHING).isEmpty()).isTrue();
    }
}
