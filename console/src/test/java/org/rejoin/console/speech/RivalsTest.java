package org.rejoin.console.speech;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

import org.junit.jupiter.api.Test;

/** What else could have been heard, and how near it is; the scores are made up. */
class RivalsTest {

    private static final List<Set<String>> NAMES =
            List.of(Set.of("petrel", "papa tango lima"), Set.of("fulmar", "foxtrot uniform lima"));

    /** Ten frames a word, a hundred of the recogniser's units each. */
    private static List<Recogniser.Segment> spoken(String... words) {
        List<Recogniser.Segment> pieces = new ArrayList<>();
        for (int i = 0; i < words.length; i++) {
            pieces.add(new Recogniser.Segment(words[i], 10 * i, 10 * i + 10, -100));
        }
        return pieces;
    }

    private static Heard heard(String... words) {
        List<Recogniser.Segment> all = spoken(words);
        return new Heard(List.of(new Heard.Clause(all, 0, 0)), all);
    }

    @Test
    void aNumberANameAndASideAreComparedWithOthersOfTheirKind() {
        Rivals rivals =
                new Rivals(heard("turn", "left", "intercept", "petrel", "zero", "six", "six", "radial"), NAMES, "");
        assertThat(rivals.grammar().vocabulary())
                .contains("right_0", "fulmar_1", "seven_2", "turn", "intercept", "radial")
                .doesNotContain("left_0", "petrel_1", "lima_1");
    }

    @Test
    void whatIsNearerThanItsMarginIsTold() {
        Heard heard = heard("join", "victor", "forty");
        Rivals rivals = new Rivals(heard, NAMES, "");
        List<Recogniser.Segment> other = new ArrayList<>(spoken("join", "victor"));
        other.add(new Recogniser.Segment("fourteen_0", 20, 30, -130));
        assertThat(rivals.others(other)).singleElement().satisfies(each -> {
            assertThat(each.margin()).isEqualTo(30);
            assertThat(each.twin()).isTrue();
            assertThat(each.clauses()).containsExactly("join victor fourteen");
        });
    }

    /** Only from where both have a word begin, to where both have one end, is the same sound compared. */
    @Test
    void aWordThatBeginsElsewhereIsComparedWithItsNeighbour() {
        Heard heard = heard("join", "victor", "forty");
        List<Recogniser.Segment> other = new ArrayList<>();
        other.add(new Recogniser.Segment("join", 0, 10, -100));
        other.add(new Recogniser.Segment("victor", 10, 25, -190));
        other.add(new Recogniser.Segment("fifty_0", 25, 30, -60));
        assertThat(new Rivals(heard, NAMES, "").others(other))
                .singleElement()
                .satisfies(each -> assertThat(each.margin()).isEqualTo(50));
    }

    /** What was cleared is compared, too, in one and in groups: "five twelve" of "five one two". */
    @Test
    void whatWasToBeSaidIsAmongThem() {
        Heard heard = heard("oceanic", "eight", "five", "two");
        assertThat(new Rivals(heard, NAMES, "oceanic five one two, fly heading one one zero")
                        .grammar()
                        .jsgf())
                .contains("(five_0 one_0 two_0)", "(five_0 twelve_0)", "(one_0 one_0 zero_0)");
    }

    @Test
    void whereNoStationWasSaidOneCouldHaveBeen() {
        Rivals rivals = new Rivals(heard("intercept", "the", "zero", "six", "six", "radial"), NAMES, "");
        assertThat(rivals.grammar().vocabulary()).contains("petrel_0", "fulmar_0");
    }

    @Test
    void figuresAreTheSameWhicheverWayTheyAreSaid() {
        assertThat(SpokenFigures.value(List.of("four", "zero"))).isEqualTo("40");
        assertThat(SpokenFigures.value(List.of("forty"))).isEqualTo("40");
        assertThat(SpokenFigures.value(List.of("forty", "one"))).isEqualTo("41");
        assertThat(SpokenFigures.value(List.of("tree", "niner", "fourteen"))).isEqualTo("3914");
        assertThat(SpokenFigures.areTwins(List.of("forty"), List.of("fourteen")))
                .isTrue();
        assertThat(SpokenFigures.areTwins(List.of("fourteen"), List.of("forty")))
                .isTrue();
        assertThat(SpokenFigures.areTwins(List.of("forty"), List.of("fifteen"))).isFalse();
    }
}
