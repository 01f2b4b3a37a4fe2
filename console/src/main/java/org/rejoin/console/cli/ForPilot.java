package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.util.List;

import org.rejoin.console.book.Pilot;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.drill.AttemptFolders;
import org.rejoin.console.skill.Goal;
import org.rejoin.console.skill.GradedAttempt;

import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;

/** {@code --pilot}, {@code --home}, {@code --goal-days}: whose attempts, where they are, what he practises for. */
final class ForPilot {

    @Option(names = "--pilot", required = true, paramLabel = "NAME", description = "Name as in the record book.")
    String pilot = "";

    @Mixin
    HomeOption home = new HomeOption();

    @Option(
            names = "--goal-days",
            paramLabel = "DAYS",
            defaultValue = "365",
            description =
                    "Days until what is practised for, such as a check flight: the more there are, the longer a skill may"
                            + " rest (default: 365).")
    double goalDays = 365;

    /** The attempts, with a line for each that cannot be read. */
    List<GradedAttempt> attempts(CommandSpec spec) throws BadInput, IOException {
        if (pilot.isBlank()) {
            throw new BadInput("--pilot is empty; name whoever practises, a nickname will do");
        }
        List<GradedAttempt> attempts = read(spec, home, folders -> folders.of(pilot));
        if (attempts.isEmpty()) {
            HomeOption.note(
                    spec,
                    "there is nothing that " + pilot + " flew or answered himself in " + home.place() + known(spec)
                            + ": every skill is unknown");
        } else {
            pilot = attempts.get(attempts.size() - 1).pilot(); // as he is called, not as he was typed
        }
        return attempts;
    }

    /** A name or a folder may have been mistyped. */
    private String known(CommandSpec spec) throws BadInput, IOException {
        if (!Files.exists(home.place())) {
            return ", which is not there yet";
        }
        try (RecordBook book = home.toRead(spec)) {
            List<String> others = BadInput.in(() -> book.roster().pilots()).stream()
                    .map(Pilot::name)
                    .filter(name -> !name.equalsIgnoreCase(pilot))
                    .sorted()
                    .limit(AttemptsCommand.MOST_NAMED)
                    .toList();
            return others.isEmpty() ? "" : " (pilots here: " + String.join(", ", others) + ")";
        }
    }

    /** What is asked of the attempts. */
    interface Question {
        List<GradedAttempt> ask(AttemptFolders folders) throws IOException;
    }

    /** Asks the record book, with a line for each attempt that cannot be read; nothing where there is no book yet. */
    static List<GradedAttempt> read(CommandSpec spec, HomeOption home, Question question) throws BadInput, IOException {
        if (!Files.exists(home.place())) {
            return List.of();
        }
        try (RecordBook book = home.toRead(spec)) {
            AttemptFolders folders = new AttemptFolders(book);
            List<GradedAttempt> attempts = BadInput.in(() -> question.ask(folders));
            folders.problems().forEach(problem -> HomeOption.note(spec, problem));
            return attempts;
        }
    }

    Goal goal() throws BadInput {
        try {
            return new Goal(goalDays);
        } catch (IllegalArgumentException e) {
            throw new BadInput("--goal-days: " + e.getMessage());
        }
    }
}
