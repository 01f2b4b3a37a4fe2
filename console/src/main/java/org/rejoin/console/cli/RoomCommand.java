package org.rejoin.console.cli;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.NetworkInterface;
import java.net.URI;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;

import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.console.book.HomeLock;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.door.PageCertificate;
import org.rejoin.console.door.Sessions;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.page.PageServer;
import org.rejoin.console.room.Room;
import org.rejoin.console.room.RoomDesk;
import org.rejoin.console.room.RoomLessons;
import org.rejoin.console.room.RoomRecords;
import org.rejoin.console.speech.Speech;
import org.rejoin.console.words.CleanText;
import org.rejoin.protocol.WireFormat;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code room}: feed and page for the whole day. */
@Command(
        name = "room",
        description = {
            "Open the practice room: feed and page stay open all day, and each aircraft flies its own lesson.",
            "Pilots, lessons, records and signatures are on the page. Ctrl-C closes the room."
        })
@SuppressWarnings("try") // a lock is held, not used
final class RoomCommand extends AnyCommand.Verbose {

    @Mixin
    HomeOption home = new HomeOption();

    @Mixin
    FeedPort port = new FeedPort();

    @Option(
            names = {"--profile", "--format"},
            paramLabel = "FILE",
            description = "A profile of the feed (feed learn writes one); dis, nmea and json are known anyway.")
    List<String> profiles = new ArrayList<>();

    @Option(
            names = "--page",
            paramLabel = "PORT",
            description = "TCP port of the page (default: 8047; 0 for a free one).")
    int page = 8047;

    @Option(
            names = "--page-bind",
            paramLabel = "ADDRESS",
            description = "Address of this machine to serve the page on (default: 127.0.0.1, this machine only)."
                    + " Beyond it, everyone else joins by a code that the page shows.")
    String pageBind = "127.0.0.1";

    @Option(names = "--no-browser", description = "Do not open the page in your browser; from a script it never is.")
    boolean noBrowser;

    @Option(
            names = "--lesson",
            paramLabel = "LESSON",
            description =
                    "Every aircraft that is heard begins this lesson, and again when it is put back to its start.")
    @Nullable
    String lesson;

    @Option(
            names = "--tls",
            description = "Serve the page encrypted, with a certificate made here: compare its fingerprint.")
    boolean tls;

    @Option(
            names = "--tls-certificate",
            paramLabel = "FILE",
            description = "Serve the page encrypted, with this certificate chain (PEM).")
    @Nullable
    Path certificate;

    @Option(
            names = "--tls-key",
            paramLabel = "FILE",
            description = "The key of that certificate (PEM, PKCS 8, without a password).")
    @Nullable
    Path key;

    @Option(names = "--instructor", paramLabel = "NAME", description = "Who gives the lessons, for the record book.")
    @Nullable
    String instructor;

    @Mixin
    SpeechOptions speech = new SpeechOptions();

    @Override
    public Integer call() throws Exception {
        if (page < 0 || page > 65_535) {
            throw bad("--page " + page + " is not a port, 0 to 65535");
        }
        if ((certificate == null) != (key == null)) {
            throw bad("--tls-certificate and --tls-key belong together");
        }
        if (lesson != null) {
            LessonReader.read(lesson);
        }
        if (instructor != null && instructor.isBlank()) {
            throw bad("--instructor has no name");
        }
        List<WireFormat> formats = BadInput.in(() -> Formats.with(profiles));
        Optional<FeedPort.Ask> ask = port.asked(profiles);
        try (RecordBook book = home.toFill(spec);
                HomeLock ignored = BadInput.in(() -> book.home().day("the practice room"))) {
            return open(book, formats, ask);
        }
    }

    private int open(RecordBook book, List<WireFormat> formats, Optional<FeedPort.Ask> ask) throws Exception {
        InetAddress address = address();
        Optional<PageCertificate> encrypted = certificate(book, address);
        Speech spoken = speech.speech(spec);
        String program = spec.root().version()[0];
        RoomRecords records = BadInput.in(() -> new RoomRecords(book, new BookEntry(spec, book), program, this::say));
        String named = instructor;
        if (named != null) {
            records.instructor(named);
        }
        int interrupted = BadInput.in(records::endInterrupted).size();
        if (interrupted > 0) {
            say((interrupted == 1 ? "an attempt" : interrupted + " attempts")
                    + " in whose flight the program was ended " + (interrupted == 1 ? "is" : "are")
                    + " in the record book");
        }
        RoomLessons lessons = new RoomLessons(book.home(), Optional.ofNullable(lesson));
        Sessions sessions =
                BadInput.in(() -> Sessions.of(book.home().secret(), book.home().place()));
        RoomDesk desk = new RoomDesk(
                records,
                lessons,
                sessions,
                encrypted.map(PageCertificate::fingerprint).orElse(""),
                new RoomParts(new RoomParts.Book(book.home().place(), program), lessons).all());
        InetSocketAddress at = new InetSocketAddress(address, page);
        try (PageServer server = BadInput.in(
                        () -> PageServer.open(at, encrypted.map(PageCertificate::keys), desk, spoken, this::say));
                Room room = BadInput.in(() -> new Room(
                        port.address(),
                        port.senders(),
                        MicroClock.steady(),
                        new Room.Setting(formats, profiles, lessons, records, Optional.ofNullable(lesson), this::say),
                        server))) {
            ask.ifPresent(each -> room.ask(feed -> each.start(feed, this::say)));
            String scheme = encrypted.isPresent() ? "https://" : "http://";
            int open = server.localAddress().getPort();
            desk.open(room, scheme + shown(reachable(address)) + ":" + open);
            InetAddress own = address.isAnyLocalAddress() ? InetAddress.getLoopbackAddress() : address;
            String here = scheme + shown(own) + ":" + open + "/";
            print("Practice room open: " + here);
            print("Send: your simulators' UDP to " + FeedPort.shown(room.localAddress()));
            print("Data folder: " + CleanText.line(book.home().place().toString()));
            encrypted.ifPresent(each -> print("Certificate: SHA-256 " + each.fingerprint()));
            print("Ctrl-C closes the room.");
            if (!noBrowser && Terminal.attached() && WebBrowser.open(URI.create(here))) {
                print("Your browser opens the page; with --no-browser it does not.");
            }
            CountDownLatch closed = new CountDownLatch(1);
            Terminal.endOnInterrupt(() -> {
                room.close();
                server.close();
                closed.countDown();
            });
            closed.await();
        }
        return Rejoin.DONE;
    }

    private InetAddress address() throws BadInput {
        InetAddress found = new InetSocketAddress(pageBind, 0).getAddress();
        if (found == null) {
            throw new BadInput("--page-bind " + pageBind + " is not an address of this machine");
        }
        return found;
    }

    private Optional<PageCertificate> certificate(RecordBook book, InetAddress address) throws Exception {
        Path chain = certificate;
        Path secret = key;
        if (chain != null && secret != null) {
            return Optional.of(BadInput.in(() -> PageCertificate.given(chain, secret, Instant.now())));
        }
        if (!tls) {
            return Optional.empty();
        }
        List<InetAddress> addresses = address.isAnyLocalAddress() ? own() : List.of(address);
        try {
            return Optional.of(PageCertificate.made(book.home(), addresses, Instant.now()));
        } catch (IOException e) {
            throw new BadInput(String.valueOf(e.getMessage()));
        }
    }

    /** Where a tablet opens a page that is served on every address. */
    private static InetAddress reachable(InetAddress address) throws IOException {
        if (!address.isAnyLocalAddress()) {
            return address;
        }
        return own().stream()
                .filter(InetAddress::isSiteLocalAddress)
                .findFirst()
                .orElse(InetAddress.getLoopbackAddress());
    }

    private static List<InetAddress> own() throws IOException {
        List<InetAddress> own = new ArrayList<>();
        for (NetworkInterface each : Collections.list(NetworkInterface.getNetworkInterfaces())) {
            own.addAll(Collections.list(each.getInetAddresses()));
        }
        return own;
    }

    private static String shown(InetAddress address) {
        String text = address.getHostAddress().replaceFirst("%.*", "");
        return text.indexOf(':') >= 0 ? "[" + text + "]" : text;
    }

    private void print(String line) {
        out().println(line);
        out().flush();
    }

    private void say(String line) {
        err().println("rejoin: " + CleanText.line(line));
        err().flush();
    }
}
