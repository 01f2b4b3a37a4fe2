package org.rejoin.console.cli;

import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;

import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.bridge.feed.UdpFeed;
import org.rejoin.console.watch.WatchBoard;
import org.rejoin.console.words.Words;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code feed watch}: what arrives on a port. */
@Command(
        name = "watch",
        description = {
            "Show what arrives on a UDP port: how often, from whom, in which format, and what grading still lacks.",
            "Ends with Ctrl-C."
        })
final class FeedWatch extends AnyCommand.Verbose {

    private static final long EVERY_NS = 1_000_000_000;

    @Mixin
    FeedPort port = new FeedPort();

    @Option(
            names = "--profile",
            paramLabel = "FILE",
            description = "A profile of the feed; dis, nmea and json are known anyway.")
    List<String> profiles = new ArrayList<>();

    @Option(names = "--seconds", paramLabel = "S", description = "End after so many seconds.")
    @Nullable
    Double seconds;

    @Option(names = "--json", description = "Print one JSON object a sender each second.")
    boolean json;

    private int drawn;

    @Override
    public Integer call() throws Exception {
        if (seconds != null && !(seconds >= 0)) {
            throw outside("--seconds", seconds, "0 or more");
        }
        MicroClock clock = MicroClock.steady();
        AtomicBoolean stop = new AtomicBoolean();
        AtomicBoolean said = new AtomicBoolean();
        InetSocketAddress address = port.address();
        WatchBoard board = new WatchBoard(FeedPort.shown(address), BadInput.in(() -> Formats.with(profiles)));
        Optional<FeedPort.Ask> ask = port.asked(profiles);
        try (UdpFeed feed = BadInput.in(() -> UdpFeed.open(address, port.senders(), clock, board))) {
            board.listensOn(feed.localAddress());
            err().println("rejoin: listening on " + FeedPort.shown(feed.localAddress()) + "; Ctrl-C ends");
            ask.ifPresent(asked -> asked.start(feed, text -> err().println("rejoin: " + text)));
            Runnable close = feed::close; // also before the end of this block: Ctrl-C must not lose the counts
            Runnable ending = () -> {
                stop.set(true);
                close.run();
                if (said.compareAndSet(false, true)) {
                    end(board, clock.micros(), feed.refused());
                }
            };
            Terminal.endOnInterrupt(ending);
            watch(board, clock, feed, stop);
            Terminal.endedByItself();
            ending.run();
        }
        return Rejoin.DONE;
    }

    private void watch(WatchBoard board, MicroClock clock, UdpFeed feed, AtomicBoolean stop)
            throws InterruptedException {
        boolean terminal = Terminal.attached() && !json;
        long startNs = System.nanoTime();
        long nextNs = startNs + EVERY_NS;
        while (!stop.get() && (seconds == null || System.nanoTime() - startNs < seconds * 1e9)) {
            Thread.sleep(20);
            if (System.nanoTime() - nextNs < 0) {
                continue;
            }
            nextNs += EVERY_NS;
            long now = clock.micros();
            synchronized (this) {
                if (stop.get()) {
                    return;
                }
                if (terminal) {
                    draw(board.picture(now, feed.refused()));
                } else {
                    (json ? board.json(now) : board.plain(now)).forEach(out()::println);
                }
                out().flush();
            }
        }
    }

    private synchronized void end(WatchBoard board, long nowMicros, long refused) {
        if (json) {
            board.json(nowMicros).forEach(out()::println);
        } else {
            draw(board.picture(nowMicros, refused));
        }
        out().flush();
    }

    private void draw(List<String> lines) {
        if (drawn > 0) {
            out().print(Words.say("\u001b[%dA\u001b[J", drawn));
        }
        lines.forEach(out()::println);
        drawn = Terminal.attached() ? lines.size() : 0;
    }
}
