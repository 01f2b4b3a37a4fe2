package org.rejoin.console.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.console.flight.FeedSetup;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.live.FlightView;
import org.rejoin.console.live.FurtherDrills;
import org.rejoin.console.live.LiveFlight;
import org.rejoin.console.live.LivePage;
import org.rejoin.console.live.RecordingPlace;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.recording.InstructorWriter;
import org.rejoin.console.recording.RecordingFolder;
import org.rejoin.protocol.WireFormat;

import org.jspecify.annotations.Nullable;
import org.slf4j.LoggerFactory;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code listen}: a lesson flown with the user's own simulator. */
@Command(
        name = "listen",
        description = {
            "Follow a lesson flown in your own simulator: waits for its datagrams on a UDP port.",
            "The flight ends when nothing has come for a while, or with Ctrl-C."
        })
final class ListenCommand extends AnyCommand.Verbose {

    @Parameters(arity = "0..1", paramLabel = "LESSON", description = "A lesson file or the name of a built-in lesson.")
    @Nullable
    String lesson;

    @Option(
            names = "--resume",
            paramLabel = "DIR",
            description = "Go on with the flight recorded in this directory, from where it broke off.")
    @Nullable
    Path resume;

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
                    "End the flight when nothing has come for this many seconds (default: wait for the first datagram; after it"
                            + " 120, and 15 once the amendment is complete).")
    @Nullable
    Double idle;

    @Option(
            names = "--drills",
            paramLabel = "N",
            description =
                    "After the lesson, N more clearances in the same flight, drawn from where the aircraft is, each when it flies"
                            + " level and straight (default: 0).")
    int drills;

    @Option(
            names = "--drill-seed",
            paramLabel = "N",
            description = "Seed of the first clearance of --drills: another number, other clearances (default: 1).")
    long drillSeed = 1;

    @Option(names = "--out", paramLabel = "DIR", description = "Record the flight in this directory.")
    @Nullable
    Path out;

    @Option(names = "--json", description = "Print JSON Lines.")
    boolean json;

    @Mixin
    PageOptions pages = new PageOptions();

    /** Nobody flies more in one sitting. */
    private static final int MOST_DRILLS = 12;

    /** Silence at the start is told of after this long, seconds. */
    private static final double PATIENCE_S = 10;

    @Mixin
    BookOptions book = new BookOptions();

    @Override
    public Integer call() throws Exception {
        String named = lesson;
        if (named == null || resume != null) {
            return listen(Optional.empty());
        }
        Lesson read = LessonReader.read(named);
        return book.in(spec, read.title(), out, place -> {
            out = place;
            return listen(Optional.of(read));
        });
    }

    private Integer listen(Optional<Lesson> read) throws Exception {
        if (idle != null && !(idle > 0 && idle <= 1e6)) {
            throw bad("--idle " + idle + " is not a number of seconds above 0, as 120 is");
        }
        if (drills < 0 || drills > MOST_DRILLS) {
            throw bad("--drills " + drills + " is not in 0 to " + MOST_DRILLS);
        }
        if (drills > 0 && which.following(spec).several()) {
            throw bad("--drills goes with one aircraft; name it with --aircraft");
        }
        Path fresh = out;
        Path old = resume;
        if ((lesson == null) == (old == null)
                || (old != null && (fresh != null || which.given() || !profiles.isEmpty()))) {
            throw bad(
                    "name a LESSON, or a recording to go on with by --resume DIR alone: it keeps its lesson, aircraft and"
                            + " profiles");
        }
        RecordingPlace place = old != null
                ? BadInput.in(() -> RecordingPlace.resumed(old))
                : fresh == null ? null : BadInput.in(() -> RecordingPlace.fresh(fresh));
        FeedSetup setup = old != null && place != null
                ? BadInput.in(() -> FeedSetup.kept(place.folder()))
                : new FeedSetup(which.following(spec), profiles);
        Lesson flown = read.isPresent() ? read.get() : kept(place);
        List<WireFormat> formats = BadInput.in(() -> Formats.with(setup.formats()));
        MicroClock clock = place == null ? MicroClock.steady() : BadInput.in(place::clock);
        boolean several = setup.following().several();
        FlightView view = new FlightView(out(), err(), json, several, Terminal.attached());
        Optional<LivePage> page = pages.open(spec, flown, place, view);
        Optional<FeedPort.Ask> ask = port.asked(setup.formats());
        Optional<InstructorWriter> writer = place == null || drills == 0
                ? Optional.empty()
                : Optional.of(new InstructorWriter(place.folder().instructor()));
        Optional<FurtherDrills> further = drills == 0
                ? Optional.empty()
                : Optional.of(new FurtherDrills(
                        flown, drills, drillSeed, spoken -> keep(writer, spoken, view), view::diagnostic));
        try (LiveFlight live = new LiveFlight(
                flown,
                new LiveFlight.Listening(port.address(), port.senders()),
                clock,
                formats,
                setup,
                place,
                view,
                page,
                further)) {
            ask.ifPresent(each -> live.ask(feed -> each.start(feed, view::diagnostic)));
            String address = FeedPort.shown(live.localAddress());
            if (!json) {
                LessonCommand.sheet(flown).forEach(view::line);
                view.line("Send: your simulator's UDP to " + address);
            }
            view.diagnostic("listening on " + address + "; Ctrl-C ends the flight");
            readAhead(flown);
            Terminal.endOnInterrupt(() -> {
                live.cutOff();
                book.over(spec);
            });
            boolean heard = await(live, address, view, further);
            live.conclude();
            Terminal.endedByItself();
            return heard && live.flown() && live.kept() ? Rejoin.DONE : Rejoin.FAILED;
        } catch (Exception e) {
            view.close();
            throw e;
        } finally {
            page.ifPresent(LivePage::close);
            writer.ifPresent(InstructorWriter::close);
        }
    }

    /** What reads clearances is loaded while the simulator is started, so that the first is spoken without delay. */
    private static void readAhead(Lesson lesson) {
        Thread reader = new Thread(
                () -> lesson.amendments().forEach(each -> {
                    try {
                        ClearanceReader.read(each.say(), lesson.chart(), lesson.filed());
                    } catch (ClearanceException e) {
                        LoggerFactory.getLogger(ListenCommand.class)
                                .debug("{}", each.say(), e); // said when it is spoken
                    }
                }),
                "read-ahead");
        reader.setDaemon(true);
        reader.start();
    }

    private Lesson kept(@Nullable RecordingPlace place) throws LessonException {
        Path file = place == null
                ? null
                : place.folder().kept(RecordingFolder.Part.LESSON).orElse(null);
        if (file == null) {
            throw bad(resume + " has no lesson.yaml beside its capture: it cannot be gone on with");
        }
        return LessonReader.readFile(file);
    }

    private static void keep(Optional<InstructorWriter> writer, InstructorFile.Spoken spoken, FlightView view) {
        writer.ifPresent(disk -> disk.keep(
                spoken,
                problem -> problem.ifPresent(
                        why -> view.diagnostic("a clearance is not kept, a debrief will not have it: " + why)),
                () -> view.diagnostic("the clearance is kept now, a debrief will have it")));
    }

    /** Until the flight is over; false if it never began. */
    private boolean await(LiveFlight live, String address, FlightView view, Optional<FurtherDrills> further)
            throws InterruptedException {
        boolean told = false;
        while (!live.stopped()) {
            Thread.sleep(50);
            if (live.received() > 0 || resume != null) {
                further.ifPresent(more -> more.look(live));
                boolean done = live.over() && further.map(more -> !more.more()).orElse(true);
                if (live.silentFor(idle != null ? idle : done ? 15 : 120)) {
                    return true;
                }
                continue;
            }
            if (idle != null && live.silentFor(idle) && live.received() == 0) {
                view.diagnostic("nothing came to " + address + " in " + idle + " s: no flight");
                return false;
            }
            if (!told && live.silentS() > PATIENCE_S) {
                told = true;
                view.diagnostic(
                        live.refused() > 0
                                ? "only datagrams of addresses that --allow does not name have come so far"
                                : "nothing has come to " + address
                                        + " yet: is the simulator told to send UDP there? From"
                                        + " another machine, --bind and --allow are needed; feed watch shows what comes");
            }
        }
        return true;
    }
}
