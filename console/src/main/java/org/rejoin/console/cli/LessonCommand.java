package org.rejoin.console.cli;

import java.nio.file.Files;
import java.nio.file.Path;

import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;

import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

/** {@code lesson}: lessons of one's own. */
@Command(
        name = "lesson",
        description = "Write a lesson of your own, and check it.",
        subcommands = {LessonCommand.New.class, LessonCommand.Check.class})
final class LessonCommand extends AnyCommand {

    /** {@code lesson new}. */
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
            Path chart = file.resolveSibling(Template.CHART.fileName());
            if (!Files.exists(chart)) {
                Template.CHART.write(chart, out());
            }
            out().println("Next: change them, check with rejoin lesson check " + file + ", then rejoin fly " + file);
            return Rejoin.DONE;
        }
    }

    /** {@code lesson check}. */
    @Command(name = "check", description = "Check a lesson and its chart, and say what a pilot would be told.")
    static final class Check extends AnyCommand {

        @Parameters(paramLabel = "LESSON", description = "A lesson file or the name of a built-in lesson.")
        String lesson = "";

        @Override
        public Integer call() throws LessonException {
            Lesson read = LessonReader.read(lesson);
            LessonSheet.lines(read).forEach(out()::println);
            read.notes().forEach(note -> out().println("note: " + note));
            out().println(Rejoin.CAUTION);
            return Rejoin.DONE;
        }
    }
}
