package org.rejoin.console.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.console.draw.PlanStyle;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.room.Tryout;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;

import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

/** {@code lesson}: lessons of one's own. */
@Command(
        name = "lesson",
        description = "Write a lesson of your own, and check it.",
        subcommands = {LessonCommand.New.class, LessonCommand.Check.class})
final class LessonCommand extends AnyCommand {

    /** What a pilot must know before the flight begins. */
    static List<String> sheet(Lesson lesson) {
        List<String> lines = new ArrayList<>();
        lines.add("Lesson: " + CleanText.line(lesson.title()));
        lines.add("Filed: " + CleanText.line(lesson.filed().text()));
        lesson.start().ifPresent(start -> lines.add(start(start)));
        lesson.time().ifPresent(time -> lines.add(Words.say("Time: %tH%tM UTC at your first sample", time, time)));
        if (lesson.wind().speedKt() > 0) {
            lines.add(Words.say(
                    "Wind: from %s true at %.0f kt",
                    Angles.figures(lesson.wind().from().deg()), lesson.wind().speedKt()));
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

    @Command(
            name = "new",
            description =
                    "Write a commented lesson to start from, and beside it the chart it names where there is none.")
    static final class New extends AnyCommand {

        @Parameters(paramLabel = "FILE", description = "The lesson to write; a file that is there is never replaced.")
        Path file = Path.of("");

        @Override
        public Integer call() throws Exception {
            Template.LESSON.write(file, out());
            Path chart = file.resolveSibling(Template.CHART.fileName);
            if (!Files.exists(chart)) {
                Template.CHART.write(chart, out());
            }
            out().println("Next: change them, check with rejoin lesson check " + Hints.typed(file)
                    + ", then rejoin fly " + Hints.typed(file));
            return Rejoin.DONE;
        }
    }

    @Command(name = "check", description = "Check a lesson and its chart, and say what a pilot would be told.")
    static final class Check extends AnyCommand {

        @Parameters(paramLabel = "LESSON", description = "A lesson file or the name of a built-in lesson.")
        String lesson = "";

        @Override
        public Integer call() throws LessonException, IOException {
            Lesson read = LessonReader.read(lesson);
            sheet(read).forEach(out()::println);
            read.notes().forEach(note -> out().println("note: " + note));
            if (read.start().isEmpty()) {
                out().println("note: it has no start, so nobody can say here whether ATC can issue its clearances"
                        + " where they are due");
            } else if (flown(read) && read.notes().isEmpty()) {
                out().println("Nothing found against it.");
            }
            out().println(Rejoin.CAUTION);
            return Rejoin.DONE;
        }

        /** A clearance can be issued or not where the aircraft is when it is due: it is flown there. Whether all is well. */
        private boolean flown(Lesson read) throws LessonException, IOException {
            Tryout flight = Tryout.of(read);
            if (flight.problem().isPresent()) {
                throw new LessonException(CleanText.line(lesson) + ": "
                        + CleanText.line(flight.problem().get()));
            }
            List<Tryout.Spoken> spoken = flight.spoken();
            for (int i = 0; i < spoken.size(); i++) {
                for (String warning : spoken.get(i).warnings()) {
                    out().println("warning: clearance " + (i + 1) + ", at "
                            + Words.clock(spoken.get(i).atS()) + ": " + CleanText.line(warning));
                }
            }
            return spoken.stream().allMatch(each -> each.warnings().isEmpty());
        }
    }

    /** Commented files to start one's own from. */
    enum Template {
        /** A lesson that can be flown as it is, with the chart beside it. */
        LESSON("my-lesson.yaml"),
        /** A chart with one of each thing. */
        CHART("my-chart.yaml");

        /** What it is called where nobody says otherwise. */
        private final String fileName;

        Template(String fileName) {
            this.fileName = fileName;
        }

        String text() {
            return PlanStyle.text(Template.class, "template/" + fileName);
        }

        /** Writes it where no file of that name is. */
        void write(Path file, PrintWriter out) throws IOException, BadInput {
            if (Files.exists(file)) {
                throw new BadInput(file + " exists already and is left as it is; name another file");
            }
            Files.writeString(file, text(), StandardOpenOption.CREATE_NEW);
            out.println("Written: " + file);
        }
    }
}
