package org.rejoin.console.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.FileVisitOption;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;

import org.rejoin.console.flight.Debrief;
import org.rejoin.console.json.Json;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.table.Cell;
import org.rejoin.console.table.Table;

import org.jspecify.annotations.Nullable;
import org.slf4j.LoggerFactory;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;

/**
 * Many recordings graded at once, on all cores: each as it would be alone.
 *
 * @param out directory for log, grade, report and exports of each, as they lie under the root; null for none
 */
record ManyRecordings(
        CommandSpec spec,
        Path root,
        Found found,
        RecordingToGrade.Options options,
        @Nullable Path out,
        boolean json) {

    private static final long EVERY_NS = 1_000_000_000;

    /** One aircraft of one recording. */
    private record Graded(String name, Debrief debrief) {}

    private static final Table<Graded> TABLE = new Table<>(List.of(
            new Table.Column<>("recording", graded -> Cell.text(graded.name())),
            new Table.Column<>(
                    "seat", graded -> Cell.text(graded.debrief().aircraft().label())),
            new Table.Column<>(
                    "score", graded -> Cell.number(graded.debrief().grade().score(), 1)),
            new Table.Column<>("met", graded -> met(graded.debrief())),
            new Table.Column<>(
                    "faults",
                    graded -> Cell.of(graded.debrief().grade().faults().stream()
                            .map(fault -> fault.code().name())
                            .toList()))));

    /** What came of one recording: its aircraft, or why it was refused, in one line, and the exit code. */
    record Outcome(
            String name, List<Debrief> debriefs, @Nullable String refused, int exit) {

        /** Whatever becomes of one recording, the others are graded. */
        static Outcome of(String name, Callable<List<Debrief>> work) {
            try {
                return new Outcome(name, work.call(), null, Rejoin.DONE);
            } catch (BadInput | LessonException | ParameterException e) {
                return new Outcome(name, List.of(), e.getMessage(), Rejoin.BAD_INPUT);
            } catch (IOException e) {
                int exit = OutputFile.isBadPlace(e) ? Rejoin.BAD_INPUT : Rejoin.FAILED;
                return new Outcome(name, List.of(), OutputFile.said(e), exit);
            } catch (Exception e) {
                LoggerFactory.getLogger(ManyRecordings.class).debug("{}", name, e);
                return new Outcome(name, List.of(), "unexpected: " + e + " (--verbose gives details)", Rejoin.FAILED);
            }
        }
    }

    /** Grades all and prints a line for each aircraft; the exit code. */
    int debrief() throws InterruptedException, IOException {
        List<Path> recordings = found.recordings();
        ExecutorService pool = Executors.newFixedThreadPool(
                Math.min(recordings.size(), Runtime.getRuntime().availableProcessors()));
        try {
            List<Future<Outcome>> pending = new ArrayList<>();
            recordings.forEach(recording -> pending.add(pool.submit(() -> one(recording))));
            List<Outcome> outcomes = new ArrayList<>();
            long toldNs = System.nanoTime();
            for (Future<Outcome> each : pending) {
                outcomes.add(each.get());
                if (System.nanoTime() - toldNs > EVERY_NS) {
                    toldNs = System.nanoTime();
                    err().println("rejoin: " + outcomes.size() + " of " + recordings.size() + " recordings");
                }
            }
            return print(outcomes);
        } catch (ExecutionException e) {
            throw new IOException(String.valueOf(e.getCause()), e);
        } finally {
            pool.shutdownNow();
        }
    }

    private Outcome one(Path recording) {
        String name = root.relativize(recording).toString().replace('\\', '/');
        return Outcome.of(name, () -> {
            RecordingToGrade graded = options.open(recording);
            List<Debrief> debriefs = graded.debrief();
            if (out != null) {
                graded.export(out.resolve(name), debriefs, options);
            }
            return debriefs;
        });
    }

    private int print(List<Outcome> outcomes) throws IOException {
        PrintWriter print = spec.commandLine().getOut();
        if (json) {
            print.println(object(outcomes));
        } else {
            print.println(TABLE.csvHead());
            for (Outcome outcome : outcomes) {
                outcome.debriefs().forEach(debrief -> print.println(TABLE.csv(new Graded(outcome.name(), debrief))));
            }
        }
        found.unreadable().forEach(each -> err().println("rejoin: " + each));
        int exit = found.unreadable().isEmpty() ? Rejoin.DONE : Rejoin.BAD_INPUT;
        for (Outcome outcome : outcomes) {
            if (outcome.refused() != null) {
                exit = exit == Rejoin.FAILED ? exit : outcome.exit();
                err().println("rejoin: " + outcome.name() + ": " + outcome.refused());
            }
        }
        return exit;
    }

    /** Nothing where it was not judged. */
    private static Cell met(Debrief debrief) {
        return switch (debrief.grade().verdict()) {
            case MET -> Cell.of(true);
            case NOT_MET -> Cell.of(false);
            case NOT_JUDGED -> Cell.NONE;
        };
    }

    private static String object(List<Outcome> outcomes) {
        return Json.object(generator -> {
            generator.writeArrayFieldStart("recordings");
            for (Outcome outcome : outcomes) {
                for (Debrief debrief : outcome.debriefs()) {
                    generator.writeRawValue(TABLE.json(new Graded(outcome.name(), debrief)));
                }
                if (outcome.refused() != null) {
                    generator.writeStartObject();
                    generator.writeStringField("recording", outcome.name());
                    generator.writeStringField("refused", outcome.refused());
                    generator.writeEndObject();
                }
            }
            generator.writeEndArray();
        });
    }

    private PrintWriter err() {
        return spec.commandLine().getErr();
    }

    /** The recordings below a directory, and what could not be looked into and why, a line each; both sorted. */
    record Found(List<Path> recordings, List<String> unreadable) {

        private static final String CAPTURE = "flight.pcap";
        private static final int DEPTH = 4;

        /** Looks four levels deep; finds nothing in a path that is a recording itself or a file. */
        static Found under(Path path) throws IOException {
            if (!Files.isDirectory(path) || Files.exists(path.resolve(CAPTURE))) {
                return new Found(List.of(), List.of());
            }
            Search search = new Search();
            Files.walkFileTree(path, EnumSet.noneOf(FileVisitOption.class), DEPTH, search);
            return search.found();
        }

        /** Goes on past what cannot be read. */
        static final class Search extends SimpleFileVisitor<Path> {

            private final List<Path> recordings = new ArrayList<>();
            private final List<String> unreadable = new ArrayList<>();

            Found found() {
                return new Found(
                        recordings.stream().sorted().toList(),
                        unreadable.stream().sorted().toList());
            }

            @Override
            public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
                if (file.endsWith(CAPTURE) && !attributes.isDirectory()) {
                    recordings.add(file.resolveSibling(""));
                }
                return FileVisitResult.CONTINUE;
            }

            @Override
            public FileVisitResult visitFileFailed(Path file, IOException why) {
                String said = why instanceof FileSystemException system ? system.getReason() : why.getMessage();
                unreadable.add(file + " cannot be looked into: "
                        + (why instanceof AccessDeniedException
                                ? "no permission"
                                : said == null ? why.getClass().getSimpleName() : said)
                        + "; recordings in it are left out");
                return FileVisitResult.CONTINUE;
            }

            @Override
            public FileVisitResult postVisitDirectory(Path directory, @Nullable IOException why) {
                return why == null ? FileVisitResult.CONTINUE : visitFileFailed(directory, why);
            }
        }
    }
}
