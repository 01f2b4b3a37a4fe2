package org.rejoin.console.lesson;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A lesson kept with a recording names the files kept with it, however its author wrote it (YAML 1.2). */
class LessonTextTest {

    private static final YAMLMapper YAML = new YAMLMapper();

    @ParameterizedTest
    @ValueSource(
            strings = {
                "title: x\nchart: far/away.yaml\nfiled: A\n",
                "title: x\n\"chart\": 'far/away.yaml'   # the usual one\nfiled: A\n",
                "{title: x, chart: far/away.yaml, filed: A}\n",
                "{\"title\": \"x\", \"chart\": \"far/away.yaml\"}",
                "chart: >-\n  far/away.yaml\nfiled: A\n",
                "chart: |\n  far/away.yaml\nfiled: A\n",
                "title: &t far/away.yaml\nchart: *t\nfiled: A\n",
                "? chart\n: far/away.yaml\n",
                "# \uD83D\uDE00 one character, two chars\nchart: far/away.yaml\n",
                "chart:\n  far/away.yaml\n",
                "chart: !!str far/away.yaml\nfiled: A\n",
                "---\nchart: far/away.yaml\n...\n",
            })
    void onlyTheNamedMemberChanges(String yaml) throws Exception {
        JsonNode wanted = YAML.readTree(yaml);
        ((ObjectNode) wanted).put("chart", "chart");
        assertThat(YAML.readTree(LessonText.with(yaml, Map.of("chart", "chart"))))
                .isEqualTo(wanted);
    }

    @Test
    void commentsAndFormStayAsWritten() {
        assertThat(LessonText.with(
                        "# mine\ntitle: x\nchart: \"a b.yaml\" # here\nstandard: ./my.yaml\n",
                        Map.of("chart", "chart", "standard", "standard.yaml")))
                .isEqualTo("# mine\ntitle: x\nchart: chart # here\nstandard: standard.yaml\n");
    }
}
