package org.rejoin.console.speech;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;

import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.Readback;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;

/** Readbacks written by hand, each with the marks that an instructor would give. */
final class WrittenReadbacks {

    /** Rules and limits may be adjusted on these. */
    static final String KNOWN = "readbacks.txt";

    /** And on these, which were held out once. */
    static final String KNOWN_SINCE = "readbacks-mariner.txt";

    /** And on these, which were held out after them. */
    static final String KNOWN_LAST = "readbacks-lagoon.txt";

    /** On these nothing may be adjusted. */
    static final String HELD_OUT = "readbacks-held-out.txt";

    /**
     * One readback.
     *
     * @param clearance it is of
     * @param text as it sounds
     * @param marks "heading right" and so on, in the order cleared; empty where it is no readback
     */
    record Written(Clearance clearance, String text, List<String> marks) {}

    final Lesson lesson;

    /** The aircraft of all of them. */
    final Optional<String> own;

    final List<Written> readbacks = new ArrayList<>();
    final List<Written> others = new ArrayList<>();

    WrittenReadbacks(String file) throws IOException, LessonException, ClearanceException {
        lesson = LessonReader.read(lesson(file));
        try (InputStream in = WrittenReadbacks.class.getResourceAsStream(file);
                BufferedReader lines =
                        new BufferedReader(new InputStreamReader(Objects.requireNonNull(in), StandardCharsets.UTF_8))) {
            Clearance clearance = null;
            String text = "";
            String callsign = "";
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                if (line.startsWith("A ")) {
                    callsign = line.substring(2);
                } else if (line.startsWith("C ")) {
                    clearance = ClearanceReader.read(line.substring(2), lesson.chart(), lesson.filed());
                } else if (line.startsWith("R ")) {
                    text = line.substring(2);
                } else if (line.startsWith("E ")) {
                    readbacks.add(new Written(
                            Objects.requireNonNull(clearance),
                            text,
                            List.of(line.substring(2).split(", ", -1))));
                } else if (line.startsWith("X ")) {
                    others.add(new Written(Objects.requireNonNull(clearance), line.substring(2), List.of()));
                }
            }
            own = Optional.of(callsign);
        }
    }

    /** The lists that were held out have charts with other names. */
    private static String lesson(String file) {
        return switch (file) {
            case KNOWN_LAST -> path("lagoon-lesson.yaml");
            case HELD_OUT -> path("held-out-lesson.yaml");
            default -> BuiltInLesson.RADIAL_OUTBOUND.lessonName();
        };
    }

    private static String path(String lesson) {
        try {
            return Path.of(Objects.requireNonNull(WrittenReadbacks.class.getResource(lesson))
                            .toURI())
                    .toString();
        } catch (URISyntaxException e) {
            throw new IllegalStateException(e);
        }
    }

    /** Elements as marks, in the same words. */
    static List<String> marks(List<Readback.Element> elements) {
        return elements.stream()
                .map(each -> each.what() + " " + each.verdict().name().toLowerCase(Locale.ROOT))
                .collect(Collectors.toList());
    }

    List<Readback.Element> check(Written written, String words) {
        return Readback.check(written.clearance(), words, lesson.chart(), lesson.filed(), own);
    }
}
