package org.rejoin.console.flight;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.Modifier;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.feed.AircraftChoice;
import org.rejoin.bridge.feed.AircraftSorter;
import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.bridge.feed.SampleClock;
import org.rejoin.bridge.feed.UdpFeed;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Point;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.detect.WireFormats;
import org.rejoin.protocol.dis.DisFormat;

import org.junit.jupiter.api.Test;

/** The way of a datagram from the socket to who reads the record, as DEVELOPERS.md draws it. */
class WayOfADatagramTest {

    /** Classes that are at work when a reader of the record is told of a sample, the outermost first. */
    private static List<Class<?>> working() {
        List<Class<?>> working = StackWalker.getInstance(StackWalker.Option.RETAIN_CLASS_REFERENCE)
                .walk(frames -> new ArrayList<Class<?>>(frames.<Class<?>>map(StackWalker.StackFrame::getDeclaringClass)
                        .filter(each -> each.getName().startsWith("org.rejoin"))
                        .map(Class::getNestHost)
                        .filter(each -> each != WayOfADatagramTest.class)
                        .toList()));
        Collections.reverse(working);
        return working;
    }

    private static List<Class<?>> way() throws Exception {
        Lesson lesson = LessonReader.read(BuiltInLesson.HEADING_TO_AIRWAY.lessonName());
        CompletableFuture<List<Class<?>>> way = new CompletableFuture<>();
        LessonFlights flights = new LessonFlights(
                lesson,
                ToleranceSet.read(lesson.standard()),
                () -> lesson.date().orElseThrow(),
                Following.FIRST,
                FlightRecord::whole,
                flown -> List.of(new LessonFlights.Watcher() {
                    @Override
                    public void point(Point point) {
                        way.complete(working());
                    }
                }),
                Said.NOTHING);
        AircraftSorter sorter = new AircraftSorter(new WireFormats().all(), AircraftChoice.all(), flights);
        InetAddress here = InetAddress.getLoopbackAddress();
        try (UdpFeed feed = UdpFeed.open(new InetSocketAddress(here, 0), Set.of(), MicroClock.steady(), sorter);
                DatagramSocket socket = new DatagramSocket(0, here)) {
            for (int i = 0; i < 200 && !way.isDone(); i++) {
                AircraftState state = AircraftState.at(i * 0.05, 38 + i * 1e-5, -55);
                for (byte[] octets : new DisFormat().newEncoder().encode(state)) {
                    socket.send(new java.net.DatagramPacket(octets, octets.length, feed.localAddress()));
                }
                Thread.sleep(50);
            }
            return way.get(10, TimeUnit.SECONDS);
        }
    }

    /** With the socket, the decoder and the tracker, which answer, and the grader that is told: nine. */
    @Test
    void fiveTypesPassItOnAndNoRoomIsComeToTwice() throws Exception {
        List<Class<?>> way = way();
        assertThat(new LinkedHashSet<>(way))
                .filteredOn(each -> Modifier.isPublic(each.getModifiers()))
                .filteredOn(each -> each != Point.class)
                .containsExactly(
                        AircraftSorter.class,
                        SampleClock.class,
                        FlownAircraft.class,
                        FlightSession.class,
                        FlightRecord.class);
        List<String> rooms = new ArrayList<>();
        for (Class<?> each : way) {
            if (rooms.isEmpty() || !rooms.get(rooms.size() - 1).equals(each.getPackageName())) {
                rooms.add(each.getPackageName());
            }
        }
        assertThat(rooms)
                .containsExactly(
                        "org.rejoin.bridge.feed",
                        "org.rejoin.console.flight",
                        "org.rejoin.bridge",
                        "org.rejoin.bridge.flight");
    }
}
