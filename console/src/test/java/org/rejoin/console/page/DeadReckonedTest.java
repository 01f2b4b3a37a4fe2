package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Point;
import org.rejoin.console.grade.Grader;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A DIS sender may be silent for 5 s in straight flight (IEEE 1278.1): what is shown then is what the next samples say. */
class DeadReckonedTest {

    private static final LocalDate DATE = LocalDate.of(2026, 6, 1);

    private final List<Point> seen = new ArrayList<>();
    private Lesson lesson;
    private ToleranceSet set;

    @BeforeEach
    void fly() throws Exception {
        lesson = LessonReader.read("heading-to-airway");
        set = ToleranceSet.read(lesson.standard());
        FlightRecord record = FlightRecord.whole();
        FlightSession seat = new FlightSession(
                new FlightSession.Setting(
                        lesson.chart(), lesson.filed(), lesson.amendments(), DATE, lesson.wind(), set.limits(), 12),
                record);
        WireFormat.Encoder encoder = new DisFormat().newEncoder();
        WireFormat.Decoder decoder = new DisFormat().newDecoder();
        new PracticeFlight(lesson, DATE, Habit.GOOD).fly(1, state -> {
            for (byte[] pdu : encoder.encode(state)) {
                Datagram datagram = Datagram.of(
                        Math.round(state.timeS() * 1e6),
                        new java.net.InetSocketAddress(java.net.InetAddress.getLoopbackAddress(), 5001),
                        pdu);
                for (Decoded each : decoder.decode(datagram)) {
                    if (each instanceof Decoded.Sample sample) {
                        seat.accept(sample.state());
                    }
                }
            }
        });
        record.points().forEach(seen::add);
        assertThat(seen).hasSizeGreaterThan(300);
    }

    @Test
    void straightOnItIsWhereTheNextSamplesWillBe() {
        int compared = 0;
        for (int i = 0; i + 5 < seen.size(); i++) {
            Point now = seen.get(i);
            Point then = seen.get(i + 5);
            boolean straight = true;
            for (int k = i; k <= i + 5; k++) {
                straight &= Math.abs(seen.get(k).state().rollDeg().orElse(0)) < 0.5
                        && seen.get(k).legIndex() == now.legIndex();
            }
            if (!straight || !now.hasLine()) {
                continue;
            }
            compared++;
            Point shown = DeadReckoned.of(now, 5).orElseThrow();
            assertThat(shown.timeS()).isCloseTo(then.timeS(), within(1e-6));
            assertThat(shown.position().distanceNm(then.position())).isLessThan(0.01);
            assertThat(shown.crossTrackNm()).isCloseTo(then.crossTrackNm(), within(0.01));
            assertThat(shown.toGoNm()).isCloseTo(then.toGoNm(), within(0.01));
            assertThat(shown.trackErrorDeg()).isCloseTo(then.trackErrorDeg(), within(1.5));
        }
        assertThat(compared).isGreaterThan(100);
    }

    /** The page shows it, the track that is kept does not have it, and after 12 s it stays where it is. */
    @Test
    void thePageShowsItAndKeepsItNot() {
        SeatPage page = new SeatPage(
                "seat",
                "SEAT",
                Optional.empty(),
                new RoutePicture(lesson, () -> DATE),
                set.limits(),
                new Grader(set)::grade);
        Point now = seen.get(200);
        page.point(now);
        SeatPage.Taken first = page.take();
        page.goOn(5);
        SeatPage.Taken silent = page.take();
        assertThat(first.rows()).hasSize(1);
        assertThat(silent.rows()).isEmpty();
        Row shown = silent.latest().orElseThrow();
        Row was = first.latest().orElseThrow();
        assertThat(shown.timeS()).isCloseTo(was.timeS() + 5, within(1e-9));
        assertThat(Math.hypot(shown.eastNm() - was.eastNm(), shown.southNm() - was.southNm()))
                .isCloseTo(was.groundSpeedKt() * 5 / 3600, within(0.005));
        page.goOn(12.5);
        assertThat(page.take().latest()).isEmpty();
        assertThat(page.data().silent()).isFalse();
    }
}
