package org.rejoin.console.speech;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.console.speech.WrittenReadbacks.Written;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What is marked of a readback in words, and that the recogniser listens for all of it. */
class WrittenReadbacksTest {

    @ParameterizedTest
    @ValueSource(
            strings = {
                WrittenReadbacks.KNOWN,
                WrittenReadbacks.KNOWN_SINCE,
                WrittenReadbacks.KNOWN_LAST,
                WrittenReadbacks.HELD_OUT
            })
    void eachIsMarkedAsAnInstructorWouldMarkIt(String file) throws Exception {
        WrittenReadbacks written = new WrittenReadbacks(file);
        assertThat(written.readbacks).hasSizeGreaterThanOrEqualTo(60);
        for (Written each : written.readbacks) {
            assertThat(WrittenReadbacks.marks(written.check(each, each.text())))
                    .as("%s, read back \"%s\"", each.clearance().text(), each.text())
                    .containsExactlyElementsOf(each.marks());
        }
    }

    /** Of those that are known: what is held out is not chosen by what is listened for. */
    @ParameterizedTest
    @ValueSource(strings = {WrittenReadbacks.KNOWN, WrittenReadbacks.KNOWN_SINCE, WrittenReadbacks.KNOWN_LAST})
    void theGrammarHasTheWordsOfEach(String file) throws Exception {
        WrittenReadbacks written = new WrittenReadbacks(file);
        for (Written each : written.readbacks) {
            Grammar grammar =
                    ReadbackGrammar.of(written.lesson.chart(), written.lesson.filed(), each.clearance(), written.own);
            List<String> words = List.of(each.text().split("[, ]+", -1));
            assertThat(grammar.clauses(words, Set.of())).as(each.text()).isPresent();
        }
        for (Written each : written.others) {
            Grammar grammar =
                    ReadbackGrammar.of(written.lesson.chart(), written.lesson.filed(), each.clearance(), written.own);
            assertThat(grammar.clauses(List.of(each.text().split("[, ]+", -1)), Set.of()))
                    .as(each.text())
                    .isEmpty();
        }
    }

    /** In a dictionary of its own: words, with the phones of words that sound so, or phones. */
    @Test
    void aNameIsListenedForAsTheChartSays(@TempDir Path folder) throws Exception {
        WrittenReadbacks written = new WrittenReadbacks(WrittenReadbacks.KNOWN);
        Path dictionary =
                Files.writeString(folder.resolve("d"), "skew S K Y UW\nah AA\nskua S K W AH\nfulmar F UH L M AA R\n");
        Pronunciations sounds = new Pronunciations(dictionary, LetterSounds.on(""));
        Map<String, String> says =
                ReadbackGrammar.says(written.lesson.chart().saying(Map.of("SKU", "skew ah", "FUL", "F UH L M ER")));
        assertThat(sounds.of(Set.of("skua", "fulmar_3", "tern"), says, false))
                .contains("skua S K Y UW AA\n", "fulmar_3 F UH L M ER\n", "tern T EH R N\n");
        assertThat(sounds.of(Set.of("skua"), Map.of(), false)).isEqualTo("skua S K W AH\n");
        assertThat(sounds.of(Set.of("fulmar"), Map.of(), true))
                .isEqualTo("fulmar F UH L M AA R\nfulmar(2) F UH L M AA\n");
        assertThat(Pronunciations.withoutR("Z IH R OW")).isEqualTo("Z IH R OW");
        assertThat(Pronunciations.withoutR("T ER N")).isEqualTo("T AH N");
    }

    /** Whatever the grammar allows is understood: nothing that is heard can come out as words without meaning. */
    @Test
    void whateverIsHeardIsUnderstood() throws Exception {
        WrittenReadbacks written = new WrittenReadbacks(WrittenReadbacks.KNOWN);
        Written first = written.readbacks.get(0);
        Grammar grammar = ReadbackGrammar.of(
                written.lesson.chart(), written.lesson.filed(), first.clearance(), Optional.of("N123AB"));
        Random random = new Random(20);
        List<String> strange = new ArrayList<>();
        for (int i = 0; i < 1_000; i++) {
            String text = "heading one one zero, " + String.join(", ", drawn(grammar, random));
            written.check(first, text).stream()
                    .filter(element -> element.what().equals("words"))
                    .forEach(element -> strange.add(element.found()));
        }
        assertThat(strange).isEmpty();
        assertThat(Readback.isDue("words")).isFalse();
    }

    /** A sentence of a grammar, drawn: its words, clause by clause. */
    private static List<String> drawn(Grammar grammar, Random random) {
        List<String> sentence = new ArrayList<>();
        int count = 1 + random.nextInt(3);
        for (int i = 0; i < count; i++) {
            sentence.add(
                    drawn(grammar.clauses().get(random.nextInt(grammar.clauses().size())), random));
        }
        return sentence;
    }

    private static String drawn(Grammar.Pattern pattern, Random random) {
        if (pattern instanceof Grammar.Word word) {
            return word.text();
        }
        if (pattern instanceof Grammar.Row row) {
            return row.parts().stream()
                    .map(each -> drawn(each, random))
                    .filter(text -> !text.isEmpty())
                    .collect(Collectors.joining(" "));
        }
        if (pattern instanceof Grammar.Choice choice) {
            return drawn(choice.parts().get(random.nextInt(choice.parts().size())), random);
        }
        if (pattern instanceof Grammar.Maybe maybe) {
            return random.nextBoolean() ? drawn(maybe.part(), random) : "";
        }
        return drawn(pattern.parts().get(0), random);
    }
}
