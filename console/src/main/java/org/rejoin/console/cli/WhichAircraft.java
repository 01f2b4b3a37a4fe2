package org.rejoin.console.cli;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.console.flight.Following;

import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;

/** {@code --aircraft}, {@code --every-aircraft}. */
final class WhichAircraft {

    @Option(
            names = "--aircraft",
            paramLabel = "NAME",
            description =
                    "Which aircraft to follow, by its id or marking; may be given several times (default: the first"
                            + " heard).")
    List<String> names = new ArrayList<>();

    @Option(
            names = "--every-aircraft",
            description = "Follow every aircraft that is heard, each with its own log and grade.")
    boolean every;

    boolean given() {
        return every || !names.isEmpty();
    }

    Following following(CommandSpec spec) {
        if (every && !names.isEmpty()) {
            throw AnyCommand.bad(spec, "--aircraft and --every-aircraft exclude each other: give one of them");
        }
        if (names.stream().anyMatch(String::isBlank)) {
            throw AnyCommand.bad(spec, "--aircraft needs the id or the marking of an aircraft");
        }
        return new Following(names, every);
    }
}
