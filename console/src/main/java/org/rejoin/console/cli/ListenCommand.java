package org.rejoin.console.cli;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.UnknownHostException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicBoolean;

import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.bridge.feed.SeatChoice;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code listen}: a lesson flown with the user's own simulator. */
@Command(
        name = "listen",
        description = {
            "Follow a lesson flown in your own simulator: waits for its datagrams on a UDP port.",
            "The flight ends when nothing has come for a while, or with Ctrl-C.",
            Rejoin.CAUTION
        },
        mixinStandardHelpOptions = true)
final class ListenCommand implements Callable<Integer> {

    @Spec
    CommandSpec spec = CommandSpec.create();

    @Mixin
    Verbosity verbosity = new Verbosity();

    @Parameters(paramLabel = "LESSON", description = "A lesson file or the name of a built-in lesson.")
    String lesson = "";

    @Option(names = "--port", paramLabel = "N", description = "UDP port to listen on (default: 3000).")
    int port = 3000;

    @Option(
            names = "--bind",
            paramLabel = "ADDRESS",
            description =
                    "Address to listen on (default: 127.0.0.1). Beyond this machine, --allow is needed, for anyone"
                            + " on the network could send.")
    String bind = "127.0.0.1";

    @Option(
            names = "--allow",
            paramLabel = "ADDRESS",
            description = "Hear only these senders; may be given several times.")
    List<String> allow = new ArrayList<>();

    @Option(
            names = "--aircraft",
            paramLabel = "NAME",
            description = "Which aircraft to follow, by its id or marking (default: the first heard).")
    @Nullable
    String aircraft;

    @Option(
            names = {"--profile", "--format"},
            paramLabel = "FILE",
            description = "A profile of the feed (feed learn writes one); dis, nmea and json are known anyway.")
    List<String> profiles = new ArrayList<>();

    @Option(
            names = "--idle",
            paramLabel = "S",
            description = "End the flight when nothing has come for this many seconds (default: 120, and 15 once the"
                    + " amendment is complete).")
    @Nullable
    Double idle;

    @Option(names = "--out", paramLabel = "DIR", description = "Record the flight in this directory.")
    @Nullable
    Path out;

    @Option(names = "--json", description = "Print JSON Lines.")
    boolean json;

    @Override
    public Integer call() throws Exception {
        if (port < 0 || port > 65_535) {
            throw new ParameterException(spec.commandLine(), "--port " + port + " is not in 0 to 65535");
        }
        Lesson flown = LessonReader.read(lesson);
        FlightView view =
                new FlightView(spec.commandLine().getOut(), spec.commandLine().getErr(), json);
        AtomicBoolean stop = new AtomicBoolean();
        try (LiveFlight live = new LiveFlight(
                flown,
                new InetSocketAddress(address(bind), port),
                addresses(allow),
                MicroClock.steady(),
                Formats.with(profiles),
                aircraft == null ? SeatChoice.all() : SeatChoice.named(aircraft),
                out,
                view)) {
            view.diagnostic("listening on " + live.localAddress().getAddress().getHostAddress() + ":"
                    + live.localAddress().getPort() + "; Ctrl-C ends the flight");
            Interrupts.onInterrupt(() -> {
                stop.set(true);
                live.end();
            });
            while (!stop.get() && !over(live)) {
                Thread.sleep(50);
            }
            Interrupts.done();
        } catch (Exception e) {
            view.close();
            throw e;
        }
        return Rejoin.DONE;
    }

    private boolean over(LiveFlight live) {
        if (live.received() == 0) {
            return false;
        }
        double patience = idle != null ? idle : live.complete() ? 15 : 120;
        return live.silentS() > patience;
    }

    private InetAddress address(String text) {
        try {
            return InetAddress.getByName(text);
        } catch (UnknownHostException e) {
            throw new ParameterException(spec.commandLine(), "\"" + text + "\" is not an address", e);
        }
    }

    private Set<InetAddress> addresses(List<String> texts) {
        Set<InetAddress> addresses = new LinkedHashSet<>();
        texts.forEach(text -> addresses.add(address(text)));
        return addresses;
    }
}
