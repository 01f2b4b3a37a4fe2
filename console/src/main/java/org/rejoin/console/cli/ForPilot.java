package org.rejoin.console.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.time.Instant;
import java.util.List;

import org.rejoin.console.drill.AttemptFolders;
import org.rejoin.console.drill.NextDrill;
import org.rejoin.console.skill.Attempt;
import org.rejoin.console.skill.Goal;

import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code --pilot}, {@code --home}, {@code --goal-days}: whose attempts, where they are, what he practises for. */
final class ForPilot {

    @Option(names = "--pilot", required = true, paramLabel = "NAME", description = "Name as in the record book.")
    String pilot = "";

    @Mixin
    HomeFolder home = new HomeFolder();

    @Option(
            names = "--goal-days",
            paramLabel = "DAYS",
            defaultValue = "365",
            description = "Days to what the pilot practises for; says how long a skill may rest (default: 365).")
    double goalDays = 365;

    /**
     * The attempts, with a line for each that cannot be read.
     *
     * @throws BadInput if the folder cannot be read
     */
    List<Attempt> attempts(PrintWriter err) throws BadInput {
        AttemptFolders folders = new AttemptFolders(home.folder());
        List<Attempt> attempts = BadInput.in(() -> folders.of(pilot));
        folders.problems().forEach(problem -> err.println("warning: " + problem));
        return attempts;
    }

    Goal goal() throws BadInput {
        try {
            return new Goal(goalDays);
        } catch (IllegalArgumentException e) {
            throw new BadInput("--goal-days: " + e.getMessage());
        }
    }

    NextDrill.Known known(PrintWriter err, boolean first) throws BadInput, IOException {
        return new NextDrill.Known(attempts(err), goal(), Instant.now(), first);
    }
}
