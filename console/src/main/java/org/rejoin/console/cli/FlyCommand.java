package org.rejoin.console.cli;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;

import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.console.flight.FeedSetup;
import org.rejoin.console.flight.Following;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.live.FlightView;
import org.rejoin.console.live.LiveFlight;
import org.rejoin.console.live.LivePage;
import org.rejoin.console.live.RecordingPlace;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.console.practice.PracticeSender;
import org.rejoin.console.practice.Turbulence;
import org.rejoin.protocol.WireFormat;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code fly}: a lesson flown by the practice aircraft, over a real socket. */
@Command(
        name = "fly",
        description = "Fly a lesson with the built-in practice aircraft, over a real UDP socket on this machine.")
final class FlyCommand extends AnyCommand.Verbose {

    /** A datagram that has not arrived after this long is lost, nanoseconds. */
    private static final long LOST_NS = 250_000_000;

    @Parameters(
            arity = "0..1",
            paramLabel = "LESSON",
            description = "A lesson file or the name of a built-in lesson (default: the first built-in).")
    String lesson = BuiltInLesson.RADIAL_OUTBOUND.lessonName();

    @Option(names = "--list", description = "Name the built-in lessons and end.")
    boolean list;

    @Option(
            names = "--pilot",
            paramLabel = "HABIT",
            description = "good, late, fly-through, reciprocal, early, weaving or wrong-turn (default: good).")
    String pilot = "good";

    @Option(
            names = "--rate",
            paramLabel = "X",
            description = "Times real time; 1 is real time (default: as fast as is sound; 1 with --page).")
    @Nullable
    Double rate;

    @Option(
            names = "--format",
            paramLabel = "FORMAT",
            description = "What the practice aircraft sends: dis, nmea, json or a profile file (default: dis).")
    String format = "dis";

    @Option(names = "--hz", paramLabel = "N", description = "States a second of simulation time (default: 5).")
    double hz = 5;

    @Option(
            names = "--gusts",
            paramLabel = "KT",
            description =
                    "Turbulence, by the surface wind in knots: 15 light, 30 moderate, 45 severe (default: 0, smooth"
                            + " air).")
    double gusts;

    @Option(names = "--out", paramLabel = "DIR", description = "Record the flight in this directory.")
    @Nullable
    Path out;

    @Mixin
    BookOptions book = new BookOptions();

    @Option(names = "--json", description = "Print JSON Lines.")
    boolean json;

    @Mixin
    PageOptions pages = new PageOptions();

    @Override
    public Integer call() throws Exception {
        if (list) {
            ArrayNode lessons = JsonNodeFactory.instance.arrayNode();
            for (BuiltInLesson each : BuiltInLesson.values()) {
                lessons.addObject().put("lesson", each.lessonName()).put("title", each.title());
                if (!json) {
                    out().println(each.lessonName() + "  " + each.title());
                }
            }
            if (json) {
                out().println(lessons);
            }
            return Rejoin.DONE;
        }
        Habit habit = Arrays.stream(Habit.values())
                .filter(each -> each.toString().equals(pilot))
                .findFirst()
                .orElseThrow(() -> bad("--pilot " + pilot + " is not one of " + Arrays.toString(Habit.values())));
        if (!(hz >= 0.2 && hz <= 200)) {
            throw outside("--hz", hz, "0.2 to 200");
        }
        if (rate != null && !(rate > 0 && rate <= 1000)) {
            throw outside("--rate", rate, "more than 0, up to 1000");
        }
        if (!(gusts >= 0 && gusts <= Turbulence.STRONGEST_KT)) {
            throw outside("--gusts", gusts, "0 to 60");
        }
        Lesson flown = LessonReader.read(lesson);
        WireFormat sent = BadInput.in(() -> Formats.named(format));
        return book.in(spec, flown.title(), out, place -> {
            out = place;
            return fly(flown, sent, habit);
        });
    }

    private int fly(Lesson flown, WireFormat sent, Habit habit) throws Exception {
        // The feed's clock is the flight's, so that a flight at any rate leaves the recording of a real one.
        long startMicros = MicroClock.steady().micros();
        AtomicLong flownMicros = new AtomicLong();
        MicroClock clock = () -> startMicros + flownMicros.get();
        LocalDate date = flown.date().orElseGet(() -> LocalDate.now(ZoneOffset.UTC));
        LocalTime start = flown.time().orElseGet(() -> LocalTime.now(ZoneOffset.UTC));
        PracticeFlight flight = new PracticeFlight(flown, date, habit, gusts);
        FlightView view = new FlightView(out(), err(), json, false, Terminal.attached());
        Path directory = out;
        RecordingPlace place = directory == null ? null : BadInput.in(() -> RecordingPlace.fresh(directory));
        Optional<LivePage> page = pages.open(spec, flown, place, view);
        page.ifPresent(shown -> shown.tell(flight::speak));
        try (LiveFlight live = new LiveFlight(
                flown,
                new LiveFlight.Listening(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), Set.of()),
                clock,
                List.of(sent),
                new FeedSetup(Following.FIRST, List.of(format), Optional.of(habit.toString())),
                place,
                view,
                page,
                Optional.empty())) {
            if (!json) {
                LessonCommand.sheet(flown).forEach(view::line);
                view.line("Pilot: " + habit);
            }
            Terminal.endOnInterrupt(() -> {
                live.cutOff();
                book.over(spec);
            });
            if (page.isPresent()) {
                page.get().awaitStart();
            }
            PracticeSender sender =
                    new PracticeSender(live.localAddress(), sent, speedUp(), start, new PracticeSender.Pace() {
                        @Override
                        public void at(double timeS) {
                            flownMicros.set(Math.round(timeS * 1e6));
                        }

                        @Override
                        public void sent(long datagrams) {
                            long startNs = System.nanoTime();
                            while (live.received() < datagrams && System.nanoTime() - startNs < LOST_NS) {
                                LockSupport.parkNanos(20_000);
                            }
                        }

                        @Override
                        public boolean stopped() {
                            return live.stopped();
                        }
                    });
            long count = sender.send(flight, hz);
            if (live.received() < count && !live.stopped()) {
                view.diagnostic((count - live.received()) + " of " + count + " datagrams were lost on the way");
            }
            live.conclude();
            Terminal.endedByItself();
            return live.kept() ? Rejoin.DONE : Rejoin.FAILED;
        } catch (Exception e) {
            view.close();
            throw e;
        } finally {
            page.ifPresent(LivePage::close);
        }
    }

    /** Somebody who looks wants to see it fly. */
    private OptionalDouble speedUp() {
        return rate != null ? OptionalDouble.of(rate) : pages.asked() ? OptionalDouble.of(1) : OptionalDouble.empty();
    }
}
