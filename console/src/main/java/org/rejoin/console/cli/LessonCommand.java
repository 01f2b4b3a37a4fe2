package org.rejoin.console.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code lesson}: lessons of one's own. */
@Command(
        name = "lesson",
        description = {"Write a lesson of your own, and check it.", Rejoin.CAUTION},
        mixinStandardHelpOptions = true,
        subcommands = {LessonCommand.New.class, LessonCommand.Check.class})
final class LessonCommand implements Callable<Integer> {

    @Spec
    CommandSpec spec = CommandSpec.create();

    @Override
    public Integer call() {
        spec.commandLine().usage(spec.commandLine().getOut());
        return Rejoin.DONE;
    }

    /** {@code lesson new}. */
    @Command(
            name = "new",
            description = {
                "Write a commented lesson to start from, and beside it the chart it names where there is none.",
                Rejoin.CAUTION
            },
            mixinStandardHelpOptions = true)
    static final class New implements Callable<Integer> {

        @Spec
        CommandSpec spec = CommandSpec.create();

        @Parameters(paramLabel = "FILE", description = "The lesson to write; a file that is there is never replaced.")
        Path file = Path.of("");

        @Override
        public Integer call() throws Exception {
            Template.LESSON.write(file, spec.commandLine().getOut());
            Path chart = file.resolveSibling(Template.CHART.fileName());
            if (!Files.exists(chart)) {
                Template.CHART.write(chart, spec.commandLine().getOut());
            }
            spec.commandLine()
                    .getOut()
                    .println("Next: change them, check with rejoin lesson check " + file + ", then rejoin fly " + file);
            return Rejoin.DONE;
        }
    }

    /** {@code lesson check}. */
    @Command(
            name = "check",
            description = {"Check a lesson and its chart, and say what a pilot would be told.", Rejoin.CAUTION},
            mixinStandardHelpOptions = true)
    static final class Check implements Callable<Integer> {

        @Spec
        CommandSpec spec = CommandSpec.create();

        @Parameters(paramLabel = "LESSON", description = "A lesson file or the name of a built-in lesson.")
        String lesson = "";

        @Override
        public Integer call() throws LessonException {
            Lesson read = LessonReader.read(lesson);
            LessonSheet.lines(read).forEach(spec.commandLine().getOut()::println);
            read.notes().forEach(note -> spec.commandLine().getOut().println("note: " + note));
            spec.commandLine().getOut().println(Rejoin.CAUTION);
            return Rejoin.DONE;
        }
    }

    /** Commented files to start one's own from. */
    enum Template {
        /** A lesson that can be flown as it is, with the chart beside it. */
        LESSON("my-lesson.yaml"),
        /** A chart with one of each thing. */
        CHART("my-chart.yaml");

        private final String fileName;

        Template(String fileName) {
            this.fileName = fileName;
        }

        /** What it is called where nobody says otherwise. */
        String fileName() {
            return fileName;
        }

        /** The text of it. */
        String text() throws IOException {
            try (InputStream in = Template.class.getResourceAsStream("template/" + fileName)) {
                if (in == null) {
                    throw new IOException(fileName + " is missing from the program");
                }
                return new String(in.readAllBytes(), StandardCharsets.UTF_8);
            }
        }

        /**
         * Writes it.
         *
         * @param file that must not exist
         * @param out told what was written
         * @throws BadInput if a file of that name is there
         * @throws IOException if it cannot be written
         */
        void write(Path file, PrintWriter out) throws IOException, BadInput {
            if (Files.exists(file)) {
                throw new BadInput(file + " exists already and is left as it is; name another file");
            }
            Files.writeString(file, text(), StandardOpenOption.CREATE_NEW);
            out.println("Written: " + file);
        }
    }

    /** What a pilot must know before the flight begins. */
    static final class LessonSheet {

        private LessonSheet() {}

        static List<String> lines(Lesson lesson) {
            List<String> lines = new ArrayList<>();
            lines.add("Lesson: " + CleanText.line(lesson.title()));
            lines.add("Filed: " + CleanText.line(lesson.filed().text()));
            lesson.start().ifPresent(start -> lines.add(start(start)));
            lesson.time().ifPresent(time -> lines.add(Words.say("Time: %tH%tM UTC at your first sample", time, time)));
            if (lesson.wind().speedKt() > 0) {
                lines.add(Words.say(
                        "Wind: from %s true at %.0f kt",
                        Angles.figures(lesson.wind().from().deg()),
                        lesson.wind().speedKt()));
            }
            lesson.amendments().forEach(amendment -> lines.add("ATC: " + when(amendment.when())));
            return lines;
        }

        private static String start(Lesson.Start start) {
            return Words.say(
                    "Start: at %s; %.0f ft, heading %s magnetic, %.0f kt true airspeed",
                    Words.place(start.position()),
                    start.altitudeFt(),
                    Angles.figures(start.heading().deg()),
                    start.speedKt());
        }

        private static String when(Amendment.When when) {
            return when instanceof Amendment.When.ElapsedS elapsed
                    ? Words.say("a clearance %.0f s after your first sample", elapsed.seconds())
                    : "a clearance abeam " + CleanText.line(((Amendment.When.Abeam) when).ident());
        }
    }
}
