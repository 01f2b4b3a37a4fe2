package org.rejoin.console.cli;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

import org.rejoin.console.book.Signature;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code attempts sign}: an instructor signs. */
@Command(
        name = "sign",
        description =
                "Sign attempts: name, certificate number as typed, time, remark, and the hashes of recording and grade are kept."
                        + " Signing again adds a signature; nothing is overwritten.")
final class AttemptsSign extends AnyCommand {

    @ParentCommand
    AttemptsCommand attempts = new AttemptsCommand();

    @Parameters(arity = "1..*", paramLabel = "ID", description = "Attempts, as the list names them.")
    List<String> ids = new ArrayList<>();

    @Option(names = "--name", paramLabel = "NAME", required = true, description = "Who signs.")
    String name = "";

    @Option(names = "--certificate", paramLabel = "NUMBER", description = "Certificate number, as typed.")
    String certificate = "";

    @Option(
            names = "--certificate-ends",
            paramLabel = "DATE",
            description = "Its expiration, or the end of recent experience, as typed.")
    String certificateEnds = "";

    @Option(names = "--training", paramLabel = "TEXT", description = "Description of the training given.")
    String training = "";

    @Option(names = "--remark", paramLabel = "TEXT", description = "A remark.")
    String remark = "";

    @Override
    public Integer call() throws Exception {
        if (name.isBlank()) {
            throw new BadInput("--name is empty: a signature needs the name of whoever signs");
        }
        Signature.Words words = new Signature.Words(name, certificate, certificateEnds, training, remark);
        return HomeOption.in(attempts.home.toChange(spec), book -> {
            for (String id : ids) {
                Signature signature = BadInput.in(() -> book.attempt(id).sign(words, Instant.now()));
                out().println(id + " signed at " + signature.at());
            }
            return Rejoin.DONE;
        });
    }
}
