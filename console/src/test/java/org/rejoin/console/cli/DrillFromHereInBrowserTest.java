package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.locks.LockSupport;

import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.console.Browser;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/**
 * One press at a seat: a drill from where the aircraft is, flown and graded as an attempt of its own, and another in the same
 * flight. The real program, a real browser, an aircraft that flies on.
 */
@Timeout(value = 5, unit = TimeUnit.MINUTES)
class DrillFromHereInBrowserTest extends RealRoom {

    private static final ObjectMapper JSON = new ObjectMapper();

    /** About the middle of the lesson's chart. */
    private static final Position MIDDLE = new Position(38.3, -49.75);

    private static final double NEAR_NM = 15;

    /** An aircraft that never stops flying: straight on near the chart's middle until it is told a lesson, which it flies from where it is. */
    private static final class Aircraft implements AutoCloseable {

        private final LocalDate today = LocalDate.now(ZoneOffset.UTC);

        private final DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress());
        private final WireFormat.Encoder encoder = new DisFormat().newEncoder();
        private final AtomicBoolean closed = new AtomicBoolean();
        private final int port;
        private volatile Position position = MIDDLE;
        private volatile double headingTrueDeg = 110;
        private volatile double knots;
        private volatile double bankDeg;
        private volatile double rate = 1;
        private volatile List<AircraftState> told = List.of();
        private int next;

        Aircraft(int port) throws Exception {
            this.port = port;
            Thread thread = new Thread(this::fly, "aircraft");
            thread.setDaemon(true);
            thread.start();
        }

        private void fly() {
            try {
                for (double timeS = 0; !closed.get(); timeS += 0.5) {
                    LockSupport.parkNanos((long) (0.5e9 / rate));
                    List<AircraftState> flown = told;
                    AircraftState state;
                    if (next < flown.size()) {
                        AircraftState now = flown.get(next++);
                        position = new Position(now.latitudeDeg(), now.longitudeDeg());
                        headingTrueDeg = now.headingTrueDeg().orElse(headingTrueDeg);
                        state = at(timeS, now.rollDeg(), now.altitudeMslFt(), now.trackTrueDeg(), now.groundSpeedKt());
                    } else {
                        if (position.distanceNm(MIDDLE) > NEAR_NM) {
                            headingTrueDeg = position.to(MIDDLE).initial().deg();
                        }
                        position = position.destination(new TrueDirection(headingTrueDeg), knots / 3600 * 0.5);
                        OptionalDouble level = OptionalDouble.of(5000);
                        state = at(
                                timeS,
                                OptionalDouble.of(bankDeg),
                                flown.isEmpty()
                                        ? level
                                        : flown.get(flown.size() - 1).altitudeMslFt(),
                                OptionalDouble.of(headingTrueDeg),
                                OptionalDouble.of(knots));
                    }
                    for (byte[] payload : encoder.encode(state)) {
                        socket.send(
                                new DatagramPacket(payload, payload.length, InetAddress.getLoopbackAddress(), port));
                    }
                }
            } catch (Exception e) {
                if (!closed.get()) {
                    throw new AssertionError(e);
                }
            }
        }

        private AircraftState at(
                double timeS,
                OptionalDouble rollDeg,
                OptionalDouble altitudeFt,
                OptionalDouble trackDeg,
                OptionalDouble groundKt) {
            return new AircraftState(
                    timeS,
                    position.latitudeDeg(),
                    position.longitudeDeg(),
                    altitudeFt,
                    OptionalDouble.of(headingTrueDeg),
                    OptionalDouble.empty(),
                    trackDeg,
                    groundKt,
                    OptionalDouble.empty(),
                    OptionalDouble.of(2),
                    rollDeg,
                    OptionalDouble.empty(),
                    false);
        }

        /** Flies the lesson of an attempt from where it is now, faster than the clock. */
        void hears(Lesson lesson) throws Exception {
            double variation = MagneticModel.WMM2025
                    .variation(position, 5000, lesson.date().orElse(today))
                    .eastDeg();
            Lesson.Start here = new Lesson.Start(
                    position,
                    lesson.start().orElseThrow().altitudeFt(),
                    new MagneticDirection(headingTrueDeg - variation),
                    120);
            Lesson from = new Lesson(
                    lesson.title(),
                    lesson.chart(),
                    lesson.filed(),
                    lesson.date(),
                    Optional.empty(),
                    Optional.of(here),
                    lesson.wind(),
                    lesson.amendments(),
                    lesson.standard(),
                    Optional.empty(),
                    lesson.files(),
                    lesson.notes());
            List<AircraftState> flown = new ArrayList<>();
            new PracticeFlight(from, lesson.date().orElse(today), Habit.GOOD).fly(2, flown::add);
            next = 0;
            told = flown;
            rate = 60;
        }

        boolean flown() {
            return next >= told.size();
        }

        @Override
        public void close() {
            closed.set(true);
            socket.close();
        }
    }

    private static void press(Browser browser, String name) throws Exception {
        String find = "[...document.querySelectorAll('button')].find((b) => b.innerText.trim() === '" + name + "')";
        browser.until(find + " !== undefined");
        browser.value(find + ".click()");
    }

    private Lesson drawn(int attempt, Browser desk) throws Exception {
        for (int i = 0; i < 1200 && attempts("lesson.yaml").size() < attempt; i++) {
            Thread.sleep(100);
        }
        List<Path> lessons = attempts("lesson.yaml");
        assertThat(lessons)
                .as("the seat says: %s", desk.value("document.querySelector('#strip').innerText"))
                .hasSizeGreaterThanOrEqualTo(attempt);
        desk.untilText("#log", "fly heading");
        return LessonReader.readFile(lessons.get(lessons.size() - 1));
    }

    @Test
    void oneAfterTheOtherInOneFlightEachAnAttemptOfItsOwn() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
        try (RealProgram program = room();
                Aircraft aircraft = new Aircraft(feed);
                Browser desk = new Browser(folder, 1280, 800)) {
            assertThat(program.process().isAlive()).isTrue();
            // On the ground: it waits, and says so at the seat.
            desk.open(address() + "/seat?s=s1");
            press(desk, "Drill from here");
            desk.untilText("#strip", "the aircraft is on the ground or nearly");
            desk.picture("room-drill-from-here-waits-1280x800");
            // In a turn: the same.
            aircraft.bankDeg = 25;
            aircraft.knots = 120;
            desk.untilText("#strip", "the aircraft is in a turn");
            assertThat(attempts("flight.pcap")).isEmpty();
            // Straight and level: drawn, spoken, flown.
            aircraft.bankDeg = 0;
            Lesson first = drawn(1, desk);
            assertThat(first.start().orElseThrow().position().distanceNm(aircraft.position))
                    .isLessThan(3);
            aircraft.hears(first);
            desk.picture("room-drill-from-here-1280x800");
            // Asked for while it is flown, the next waits until it is complete and graded.
            press(desk, "Drill from here");
            desk.untilText("#strip", "Drill from here: ");
            while (!aircraft.flown()) {
                Thread.sleep(100);
            }
            aircraft.rate = 10; // past the graded part, and not out of the chart before the room looks again
            Lesson second = drawn(2, desk);
            aircraft.rate = 1;
            assertThat(second.amendments().get(0).say())
                    .isNotEqualTo(first.amendments().get(0).say());
            press(desk, "End the attempt");
            desk.until("[...document.querySelectorAll('button')].some((b) => b.innerText.startsWith('Press again'))");
            desk.value(
                    "[...document.querySelectorAll('button')].find((b) => b.innerText.startsWith('Press again')).click()");
            desk.untilText("#strip", "Debrief");
            JsonNode grade = JSON.readTree(attempts("grade.json").get(0).toFile());
            assertThat(grade.path("met").asBoolean()).as(grade.toString()).isTrue();
            assertThat(grade.path("faults")).isEmpty();
            assertThat(desk.complaints()).isEmpty();
        }
    }
}
