package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.InputStream;
import java.nio.charset.StandardCharsets;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the instructor's and the student's page have in common is written in both, and is the same in both. */
class SharedPartsTest {

    @ParameterizedTest
    @CsvSource({
        "<div class=\"what\">, <div class=\"row\">",
        "<nav id=\"seats\", <section class=\"card clearance\"",
        "<section class=\"card log\", </main>"
    })
    void aPartIsTheSameOnBothPages(String from, String to) throws Exception {
        String instructor = part("instructor.html", from, to).replaceFirst(">Instructor</h1>", ">Student</h1>");
        String student = part("student.html", from, to.contains("clearance") ? "<section class=\"card log\"" : to);
        assertThat(student).hasSizeGreaterThan(200).isEqualTo(instructor);
    }

    private static String part(String file, String from, String to) throws Exception {
        try (InputStream in = SharedPartsTest.class.getResourceAsStream(file)) {
            assertThat(in).isNotNull();
            String page = new String(in.readAllBytes(), StandardCharsets.UTF_8);
            int start = page.indexOf(from);
            int end = page.indexOf(to, start);
            assertThat(start).as(file + " has " + from).isPositive();
            assertThat(end).as(file + " has " + to).isPositive();
            return page.substring(start, end);
        }
    }
}
