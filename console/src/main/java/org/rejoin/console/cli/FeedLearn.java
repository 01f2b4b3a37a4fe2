package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;

import org.rejoin.bridge.feed.DatagramSink;
import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.bridge.feed.UdpFeed;
import org.rejoin.bridge.learn.Known;
import org.rejoin.bridge.learn.Learned;
import org.rejoin.bridge.learn.Learner;
import org.rejoin.console.recording.Capture;
import org.rejoin.console.recording.CaptureWriter;
import org.rejoin.console.words.CleanText;
import org.rejoin.protocol.Datagram;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code feed learn}: works out the profile of an unknown feed. */
@Command(
        name = "learn",
        description = {
            "Work out the profile of an unknown feed while you fly, or from a capture of such a flight.",
            "Fly about three minutes in a wind of 10 to 25 kt: level, one full turn at 15 to 25 degrees of bank, level, a"
                    + " steady climb, level, 15 kt faster, a turn the other way, a descent.",
            "Exit 3 when a needed field (position, altitude, heading or track, speed) stays ambiguous, with the question"
                    + " or the manoeuvre that would settle it."
        })
final class FeedLearn extends AnyCommand.Verbose {

    /** A needed field stayed ambiguous. */
    static final int UNSURE = 3;

    private static final int MOST_DATAGRAMS = 200_000;
    private static final long MOST_OCTETS = 200_000_000;
    private static final double FIRST_TRY_S = 20;
    private static final double TRY_EVERY_S = 15;
    private static final double LONGEST_S = 900;
    private static final long PAUSE_NS = 2_000_000_000L;
    private static final long LONGEST_REPORT_S = 30;
    private static final int MOST_ANSWERS = 5;

    @Mixin
    FeedPort port = new FeedPort();

    @Option(names = "--capture", paramLabel = "FILE", description = "A capture (classic pcap) of the flight.")
    @Nullable
    Path capture;

    @Option(names = "--out", paramLabel = "FILE", required = true, description = "Write the profile there.")
    Path out = Path.of("");

    @Option(
            names = "--variation",
            paramLabel = "DEG",
            description =
                    "Variation that the simulator uses, east positive (default: by the World Magnetic Model at the"
                            + " place and date of the flight).")
    @Nullable
    Double variation;

    @Option(
            names = "--altimeter",
            paramLabel = "FT",
            description = "What your altimeter showed at the end of the flight, feet: yours, not a figure of the feed.")
    @Nullable
    Double altimeter;

    @Option(
            names = "--seconds",
            paramLabel = "S",
            description = "Listen so long (default: until all is sure, at most 15 minutes; Ctrl-C ends earlier).")
    @Nullable
    Double seconds;

    @Option(
            names = "--request",
            paramLabel = "TEXT",
            description = "What to send to --ask where the simulator sends only when it is asked; \\\\n ends a line.")
    @Nullable
    String request;

    @Option(names = "--every", paramLabel = "S", description = "How often to ask, seconds (default: 0.5).")
    double everyS = 0.5;

    @Option(names = "--json", description = "Print one JSON object.")
    boolean json;

    private Optional<FeedPort.Ask> ask = Optional.empty();

    private final MicroClock clock;

    /** By the clock of the machine. */
    FeedLearn() {
        this(MicroClock.steady());
    }

    /** By another clock: what the times of receipt are taken from. */
    FeedLearn(MicroClock clock) {
        this.clock = clock;
    }

    @Override
    public Integer call() throws Exception {
        checkOut();
        boolean ported = spec.commandLine().getParseResult().hasMatchedOption("--port");
        if (seconds != null && !(seconds > 0)) {
            throw outside("--seconds", seconds, "more than 0");
        }
        if (capture != null && ported) {
            throw bad("--port and --capture exclude each other: give one of them");
        }
        try {
            known(0, given(altimeter)); // refuses a bad --variation or --altimeter before anybody flies
        } catch (IllegalArgumentException e) {
            throw bad(String.valueOf(e.getMessage()));
        }
        if (port.ask.isEmpty() != (request == null)) {
            throw bad("--ask HOST:PORT and --request TEXT belong together: whom to ask, and with what");
        }
        if (capture != null && request != null) {
            throw bad("--ask and --capture exclude each other: give one of them");
        }
        ask = request == null ? Optional.empty() : Optional.of(port.asked(request, everyS));
        if (capture != null) {
            Path flown = capture;
            return report(Terminal.patiently("learning from " + flown, err(), () -> learn(captured(flown))));
        }
        return listen();
    }

    private void checkOut() throws BadInput {
        Path parent = out.toAbsolutePath().getParent();
        if (Files.isDirectory(out) || parent == null || !Files.isDirectory(parent)) {
            throw new BadInput("--out " + out + " cannot be written: "
                    + (Files.isDirectory(out) ? "it is a directory" : "its directory does not exist"));
        }
    }

    private List<Datagram> captured(Path file) throws IOException, BadInput {
        List<Datagram> datagrams = new ArrayList<>();
        long octets = 0;
        try (Capture packets = BadInput.in(() -> Capture.open(file))) {
            for (Optional<Datagram> next = packets.next(); next.isPresent(); next = packets.next()) {
                octets += next.get().length();
                if (datagrams.size() >= MOST_DATAGRAMS || octets > MOST_OCTETS) {
                    err().println("rejoin: " + file + ": only its first " + datagrams.size() + " datagrams were used");
                    break;
                }
                datagrams.add(next.get());
            }
            if (datagrams.isEmpty()) {
                throw new BadInput(file + " holds no UDP datagrams"
                        + packets.tear().map(tear -> " (" + tear + ")").orElse("")
                        + "; record the feed while you fly");
            }
            packets.tear().ifPresent(tear -> err().println("rejoin: " + file + ": " + tear));
            packets.skipped().ifPresent(skipped -> err().println("rejoin: " + file + ": " + skipped));
        }
        return datagrams;
    }

    private int listen() throws IOException, BadInput, InterruptedException {
        Collected collected = new Collected();
        AtomicBoolean stop = new AtomicBoolean();
        AtomicInteger code = new AtomicInteger(Rejoin.FAILED);
        CountDownLatch reported = new CountDownLatch(1);
        Learned learned = null;
        try (UdpFeed feed = BadInput.in(() -> UdpFeed.open(port.address(), port.senders(), clock, collected))) {
            err().println("rejoin: listening on " + FeedPort.shown(feed.localAddress())
                    + "; fly the script (feed learn --help), Ctrl-C ends");
            Terminal.onInterrupt(
                    () -> {
                        stop.set(true);
                        try {
                            // The report is written before the program ends.
                            if (!reported.await(LONGEST_REPORT_S, TimeUnit.SECONDS)) {
                                err().println("rejoin: the report takes too long; the profile is not written");
                            }
                        } catch (InterruptedException e) {
                            Thread.currentThread().interrupt();
                        }
                    },
                    code::get);
            ask.ifPresent(asked -> asked.start(feed, text -> err().println("rejoin: " + text)));
            double triedS = FIRST_TRY_S - TRY_EVERY_S;
            double heardS = 0;
            long heardNs = System.nanoTime();
            String before = "";
            double longestS = seconds != null ? seconds : LONGEST_S;
            long startNs = System.nanoTime();
            while (!stop.get() && (System.nanoTime() - startNs) * 1e-9 < longestS) {
                Thread.sleep(50);
                double flownS = collected.flownS();
                if (flownS > heardS) {
                    heardS = flownS;
                    heardNs = System.nanoTime();
                }
                // Who stops sending waits for the answer.
                boolean pausing = flownS > triedS && flownS > FIRST_TRY_S && System.nanoTime() - heardNs > PAUSE_NS;
                if (seconds == null && (flownS > triedS + TRY_EVERY_S || pausing)) {
                    triedS = flownS;
                    // What the altimeter shows at the end says nothing of now.
                    learned = learn(collected.copy(), OptionalDouble.empty());
                    if (learned.settled() || (learned.flown().whole() && learned.needsAltimeterAlone())) {
                        break;
                    }
                    String next = next(learned);
                    if (!next.equals(before)) {
                        err().println("rejoin: " + learned.flown().seen() + ". Next: " + next);
                        before = next;
                    }
                    learned = null;
                }
            }
        }
        try {
            code.set(conclude(collected.copy(), learned, !stop.get()));
        } finally {
            reported.countDown();
            Terminal.endedByItself();
        }
        return code.get();
    }

    /** Keeps the flight, says what was found, and asks what only the pilot knows. */
    private int conclude(List<Datagram> all, @Nullable Learned sofar, boolean ask) throws IOException {
        if (all.isEmpty()) {
            throw new IOException("nothing arrived on port " + port.port
                    + ": let the simulator send UDP there, and see with feed watch");
        }
        Path flight = keep(all);
        Learned learned = sofar == null || altimeter != null ? learn(all) : sofar;
        if (ask && learned.needsAltimeterAlone() && altimeter == null && !json && Terminal.attached()) {
            OptionalDouble shown = shown();
            learned = shown.isPresent() ? learn(all, shown) : learned;
        }
        int code = report(learned);
        if (code == UNSURE) {
            err().println("rejoin: the flight is kept in " + flight
                    + (learned.needsAltimeterAlone()
                            ? ": answer without flying again: feed learn --capture " + flight + " --out " + out
                                    + " --altimeter FT"
                            : ", to be learnt from again with feed learn --capture " + flight + " --out " + out));
        }
        return code;
    }

    /** What is typed, and nothing else, is the answer. */
    private OptionalDouble shown() throws IOException {
        err().println("rejoin: one thing only the pilot knows. What did the altimeter show at the end, in feet?"
                + " (Enter if you do not know)");
        Terminal.Answers answers = new Terminal.Answers();
        for (int i = 0; i < MOST_ANSWERS; i++) {
            String typed = answers.next().map(Terminal.Answers.Answer::text).orElse("");
            if (typed.isEmpty()) {
                return OptionalDouble.empty();
            }
            try {
                double feet = Double.parseDouble(typed.replaceFirst("(?i)\\s*(ft|feet)$", ""));
                return new Known(OptionalDouble.empty(), OptionalDouble.of(feet), 2000).altimeterFt();
            } catch (IllegalArgumentException e) {
                err().println("rejoin: \"" + CleanText.line(typed) + "\" is not an altitude in feet, as 4500 is");
            }
        }
        return OptionalDouble.empty();
    }

    /** What to fly next; once the script is flown, what would settle the rest. */
    private static String next(Learned learned) {
        return learned.flown().next().orElseGet(() -> String.join("; ", learned.questions()));
    }

    /** Beside the profile: a question can be answered afterwards without flying again. */
    private Path keep(List<Datagram> flight) throws IOException {
        Path file = out.resolveSibling(name() + ".pcap");
        for (int i = 2; Files.exists(file); i++) {
            file = out.resolveSibling(name() + "-" + i + ".pcap");
        }
        try (CaptureWriter writer = CaptureWriter.create(file, port.address())) {
            for (Datagram datagram : flight) {
                writer.write(datagram);
            }
        }
        return file;
    }

    /** The name of the profile's file, without what tells its kind. */
    private String name() {
        return String.valueOf(out.getFileName()).replaceFirst("(?s)(.)\\.[^.]*$", "$1");
    }

    private Learned learn(List<Datagram> datagrams) {
        return learn(datagrams, given(altimeter));
    }

    private Learned learn(List<Datagram> datagrams, OptionalDouble altimeterFt) {
        return new Learner(known(datagrams.get(0).receivedMicros(), altimeterFt)).learn(datagrams);
    }

    private static OptionalDouble given(@Nullable Double number) {
        return number == null ? OptionalDouble.empty() : OptionalDouble.of(number);
    }

    private Known known(long micros, OptionalDouble altimeterFt) {
        LocalDate date = Instant.ofEpochSecond(Math.floorDiv(micros, 1_000_000L))
                .atZone(ZoneOffset.UTC)
                .toLocalDate();
        double year = date.getYear() + (date.getDayOfYear() - 1) / (double) date.lengthOfYear();
        return new Known(given(variation), altimeterFt, Math.max(1970, Math.min(2099, year)));
    }

    private int report(Learned learned) throws IOException {
        String name = name().toLowerCase(Locale.ROOT);
        Files.writeString(
                out,
                learned.yaml(name)
                        + ask.filter(asked -> learned.profile(name).isPresent())
                                .map(asked -> "\n# Sent to --ask HOST:PORT.\n"
                                        + asked.asking().yaml() + "\n")
                                .orElse(""));
        if (json) {
            out().println(LearnReport.json(learned, out));
            out().flush();
        } else {
            LearnReport.text(learned, out, out());
        }
        return learned.complete() ? Rejoin.DONE : UNSURE;
    }

    /** Keeps what arrives; written by the feed's thread, read by the command's. */
    private static final class Collected implements DatagramSink {
        private final List<Datagram> datagrams = new ArrayList<>();
        private long octets;

        @Override
        public synchronized void accept(Datagram datagram) {
            octets += datagram.length();
            if (datagrams.size() < MOST_DATAGRAMS && octets < MOST_OCTETS) {
                datagrams.add(datagram);
            }
        }

        synchronized List<Datagram> copy() {
            return List.copyOf(datagrams);
        }

        synchronized double flownS() {
            return datagrams.isEmpty()
                    ? 0
                    : datagrams.get(datagrams.size() - 1).receivedS()
                            - datagrams.get(0).receivedS();
        }
    }
}
