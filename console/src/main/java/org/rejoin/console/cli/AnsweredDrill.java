package org.rejoin.console.cli;

import java.io.IOException;
import java.time.Instant;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.BiFunction;

import org.rejoin.console.book.RecordBook;
import org.rejoin.console.drill.AttemptFolders;
import org.rejoin.console.skill.Mark;

import com.fasterxml.jackson.databind.node.ObjectNode;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** A drill that is answered and not flown; the record book keeps it where a pilot is named. */
abstract class AnsweredDrill extends AnyCommand.Verbose {

    @Mixin
    DrillWishes wishes = new DrillWishes();

    @Mixin
    HomeOption home = new HomeOption();

    @Option(names = "--pilot", paramLabel = "NAME", description = "Keep the result in the record book under this name.")
    @Nullable
    String pilot;

    /** Refuses before the drill begins what could not be kept after it. */
    final void requireKeepable() throws BadInput, IOException {
        String name = pilot;
        if (name == null) {
            if (home.home != null) {
                throw new BadInput("--home without --pilot keeps nothing; add --pilot NAME");
            }
            return;
        }
        if (name.isBlank()) {
            throw new BadInput("--pilot is empty; name whoever practises, a nickname will do");
        }
        home.toFill(spec).close();
    }

    /** Keeps it, where a pilot was named, with the marks that it gives him at that time. */
    final void keep(
            String title, OptionalDouble seconds, ObjectNode result, BiFunction<String, Instant, List<Mark>> marks)
            throws BadInput, IOException {
        String name = pilot;
        if (name == null) {
            return;
        }
        Instant now = Instant.now();
        try (RecordBook book = home.toFill(spec)) {
            new AttemptFolders(book)
                    .keep(new AttemptFolders.Unflown(
                            name, title, now, seconds, spec.root().version()[0], result, marks.apply(name, now)));
        }
    }
}
