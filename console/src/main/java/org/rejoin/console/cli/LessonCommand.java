package org.rejoin.console.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;

import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;

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
}
