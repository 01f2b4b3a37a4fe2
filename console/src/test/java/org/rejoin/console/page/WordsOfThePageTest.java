package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

import org.rejoin.bridge.clearance.Readback;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Words at which an instructor stopped are not on the pages any more. */
class WordsOfThePageTest {

    private static final Path PAGES = Path.of("src", "main", "resources", "org", "rejoin", "console", "page");

    private static List<String> pages() throws IOException {
        List<String> texts = new ArrayList<>();
        try (Stream<Path> files = Files.list(PAGES)) {
            for (Path file : files.filter(each -> each.toString().matches(".*\\.(html|js)"))
                    .toList()) {
                texts.add(Files.readString(file));
            }
        }
        assertThat(texts).hasSizeGreaterThan(30);
        return texts;
    }

    /** A button that says "Paper" is no look; "sure?" asks nobody anything; a list of three words is no sentence. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                ">Paper<",
                "'Paper'",
                "End it: sure?",
                "Students see next route grade",
                "not cleared",
                "Issued:",
                "You answered",
                "holds the truth",
                "nobody knows yet",
                "is worked out again",
                "Students see",
                "sound pilot does not do",
                "ablets out<",
                "session was taken back",
                "put elsewhere",
                "Home takes one in",
                ">Leave out<",
                "altitude beside the words",
                "it can be drawn",
                "did not read let go"
            })
    void isGone(String words) throws IOException {
        assertThat(pages()).noneMatch(text -> text.contains(words));
    }

    /** An instructor does not say "onward". */
    @Test
    void theRestOfTheRouteIsCalledThat() {
        assertThat(Readback.called("onward")).isEqualTo("rest of the route");
        assertThat(Readback.called("altitude")).isEqualTo("altitude");
    }
}
