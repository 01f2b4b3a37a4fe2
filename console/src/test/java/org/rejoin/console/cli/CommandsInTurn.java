package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;

/** Commands that are run in this process one after the other, and what the last one printed. */
abstract class CommandsInTurn {

    String out = "";
    String err = "";

    private int took(Ran ran) {
        out = ran.out();
        err = ran.err();
        return ran.exit();
    }

    final int run(String... args) {
        return took(Ran.run(args));
    }

    final int answering(String typed, String... args) {
        return took(Ran.typing(typed, args));
    }

    final void done(String... args) {
        int exit = run(args);
        assertThat(exit).as(err).isZero();
    }

    /** {@return what was printed, one JSON object} */
    final JsonNode json() {
        return Ran.json(out);
    }

    /** As bad input. */
    final void refused(String... args) {
        int exit = run(args);
        assertThat(exit).as(err).isEqualTo(Rejoin.BAD_INPUT);
    }
}
