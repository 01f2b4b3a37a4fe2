package org.rejoin.console.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicBoolean;

import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.console.flight.Following;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
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

    @Mixin
    FeedPort port = new FeedPort();

    @Mixin
    WhichAircraft which = new WhichAircraft();

    @Option(
            names = {"--profile", "--format"},
            paramLabel = "FILE",
            description = "A profile of the feed (feed learn writes one); dis, nmea and json are known anyway.")
    List<String> profiles = new ArrayList<>();

    @Option(
            names = "--idle",
            paramLabel = "S",
            description =
                    "End the flight when nothing has come for this many seconds after the first datagram (default: 120, and 15 once the"
                            + " amendment is complete).")
    @Nullable
    Double idle;

    @Option(names = "--out", paramLabel = "DIR", description = "Record the flight in this directory.")
    @Nullable
    Path out;

    @Option(names = "--json", description = "Print JSON Lines.")
    boolean json;

    @Mixin
    PageOptions pages = new PageOptions();

    @Override
    public Integer call() throws Exception {
        Lesson flown = LessonReader.read(lesson);
        Following following = which.following(spec);
        FlightView view =
                new FlightView(spec.commandLine().getOut(), spec.commandLine().getErr(), json, following.several());
        AtomicBoolean stop = new AtomicBoolean();
        Optional<LivePage> page = pages.open(spec, flown, out, view);
        try (LiveFlight live = new LiveFlight(
                flown,
                port.address(),
                port.senders(),
                MicroClock.steady(),
                Formats.with(profiles),
                following,
                out,
                view,
                page)) {
            view.diagnostic("listening on " + live.localAddress().getAddress().getHostAddress() + ":"
                    + live.localAddress().getPort() + "; Ctrl-C ends the flight");
            Interrupts.onInterrupt(() -> {
                stop.set(true);
                live.end();
            });
            while (!stop.get() && !page.map(LivePage::stopped).orElse(false) && !over(live)) {
                Thread.sleep(50);
            }
            if (page.isPresent()) {
                live.end();
                page.get().over();
            }
            Interrupts.done();
        } catch (Exception e) {
            view.close();
            throw e;
        } finally {
            page.ifPresent(LivePage::close);
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
}
