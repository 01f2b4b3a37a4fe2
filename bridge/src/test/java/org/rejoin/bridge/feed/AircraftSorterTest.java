package org.rejoin.bridge.feed;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.Inet6Address;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.UnknownHostException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.dis.DisFormat;

import org.junit.jupiter.api.Test;

class AircraftSorterTest {

    private static final long START = 1_780_348_474_000_000L;

    /** What each seat said, in order. */
    private static final class Out implements AircraftSink {
        final Map<AircraftKey, List<String>> said = new LinkedHashMap<>();

        @Override
        public void state(AircraftKey seat, AircraftState state) {
            add(seat, state.timeS() + " " + state.latitudeDeg());
        }

        @Override
        public void timeBase(AircraftKey seat, double timeS, TimeBase base) {
            add(seat, timeS + " " + base);
        }

        @Override
        public void note(AircraftKey seat, double timeS, String text) {
            add(seat, timeS + " " + text);
        }

        @Override
        public void control(AircraftKey seat, double timeS, Decoded.Control.What what) {
            add(seat, what + " at " + timeS);
        }

        private void add(AircraftKey seat, String line) {
            said.computeIfAbsent(seat, key -> new ArrayList<>()).add(line);
        }
    }

    private final Out out = new Out();
    private final AircraftSorter sorter = new AircraftSorter(List.of(new LineFormat()), AircraftChoice.all(), out);

    private static InetSocketAddress from(int port) {
        return new InetSocketAddress(InetAddress.getLoopbackAddress(), port);
    }

    private static Datagram line(double atS, int port, String text) {
        return Datagram.of(START + Math.round(atS * 1e6), from(port), text.getBytes(StandardCharsets.US_ASCII));
    }

    private static Datagram sample(double atS, int port, String aircraft) {
        return line(atS, port, "L " + aircraft + " " + atS + " " + (30 + atS / 1000) + " -145");
    }

    @Test
    void everySenderAndEveryAircraftHasItsSeat() {
        for (int i = 0; i < 50; i++) {
            sorter.accept(sample(i * 0.2, 5001, "a"));
            sorter.accept(sample(i * 0.2 + 0.01, 5001, "b"));
            sorter.accept(sample(i * 0.2 + 0.02, 5002, "a"));
        }
        sorter.finish();
        assertThat(out.said.keySet())
                .containsExactlyInAnyOrder(
                        new AircraftKey(from(5001), "a"),
                        new AircraftKey(from(5001), "b"),
                        new AircraftKey(from(5002), "a"));
        assertThat(out.said.values()).allSatisfy(lines -> assertThat(lines).hasSize(51));
        assertThat(sorter.aircraft()).hasSize(3).allSatisfy(seat -> {
            assertThat(seat.samples()).isEqualTo(50);
            assertThat(seat.late()).isZero();
            assertThat(seat.marking()).startsWith("CALL");
            assertThat(seat.timeBase().orElseThrow().clock()).isEqualTo(TimeBase.Clock.SENDER);
        });
        assertThat(new AircraftKey(from(5001), "a").label()).isEqualTo("127.0.0.1:5001 a");
    }

    @Test
    void labelsAreThoseOfARecordingToo() throws UnknownHostException {
        byte[] local = HexFormat.of().parseHex("fe800000000000000000000000000007");
        InetAddress live = Inet6Address.getByAddress(null, local, 3);
        InetAddress recorded = InetAddress.getByAddress(local);
        AircraftKey key = new AircraftKey(new InetSocketAddress(live, 5001), "");
        assertThat(key).isEqualTo(new AircraftKey(new InetSocketAddress(recorded, 5001), ""));
        assertThat(key.label()).isEqualTo("[fe80:0:0:0:0:0:0:7]:5001");
    }

    @Test
    void aThousandSeatsAreTheNormalCase() {
        for (int i = 0; i < 30; i++) {
            for (int port = 1; port <= 1000; port++) {
                sorter.accept(sample(i * 0.2, port, ""));
            }
        }
        sorter.finish();
        assertThat(sorter.aircraft())
                .hasSize(1000)
                .allSatisfy(s -> assertThat(s.samples()).isEqualTo(30));
    }

    /** One DIS sender with a thousand entities at its heartbeat of 5 s; every one is heard, named and timed. */
    @Test
    void aThousandEntitiesOfOneSenderEachGiveTheirSamples() {
        Out each = new Out();
        AircraftSorter many = new AircraftSorter(List.of(new DisFormat()), AircraftChoice.all(), each);
        byte[] pdu = new DisFormat()
                .newEncoder()
                .encode(AircraftState.at(0, 30, -145))
                .get(0);
        int rounds = 6;
        for (int round = 0; round < rounds; round++) {
            for (int entity = 1; entity <= 1000; entity++) {
                double atS = round * 5 + entity * 0.004;
                ByteBuffer octets = ByteBuffer.wrap(pdu.clone());
                octets.putInt(4, (int) ((long) (atS / 3600 * 0x1p31) << 1)).putShort(16, (short) entity);
                octets.putDouble(48, octets.getDouble(48) + round * 300);
                many.accept(Datagram.of(START + Math.round(atS * 1e6), from(5001), octets.array()));
            }
        }
        many.finish();
        assertThat(many.leftOut()).isZero();
        assertThat(many.aircraft()).hasSize(1000).allSatisfy(seat -> {
            assertThat(seat.samples()).isEqualTo(rounds);
            assertThat(seat.late()).isZero();
            assertThat(seat.timeBase().orElseThrow().clock()).isEqualTo(TimeBase.Clock.SENDER);
        });
        assertThat(each.said).hasSize(1000);
        // The samples, the clock, and that each moves although it says that it stands.
        assertThat(each.said.values()).allSatisfy(lines -> assertThat(lines).hasSize(rounds + 2));
    }

    @Test
    void onlyTheChosenAircraftIsFollowed() {
        for (String name : List.of("b", " CALLB ")) {
            Out one = new Out();
            AircraftSorter some = new AircraftSorter(
                    List.of(new LineFormat()),
                    (key, sample) -> AircraftChoice.goesBy(name, key, sample.marking()),
                    one);
            for (int i = 0; i < 20; i++) {
                some.accept(sample(i * 0.2, 5001, "a"));
                some.accept(sample(i * 0.2 + 0.1, 5001, "b"));
            }
            some.finish();
            assertThat(one.said.keySet()).containsExactly(new AircraftKey(from(5001), "b"));
        }
    }

    /** The promise that live and debrief agree: ticks between the datagrams change nothing. */
    @Test
    void ticksDoNotChangeWhatASeatSays() {
        for (int seed = 0; seed < 50; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            List<Datagram> datagrams = new ArrayList<>();
            double at = 0;
            for (int i = 0; i < 300; i++) {
                at += random.nextInt(40) == 0 ? random.nextDouble(6) : random.nextDouble(0.2);
                double late = random.nextInt(10) == 0 ? random.nextDouble(0.5) : 0;
                datagrams.add(
                        switch (random.nextInt(30)) {
                            case 0 -> line(at, 5001, "P");
                            case 1 -> line(at, 5001, "R");
                            case 2 -> line(at, 5001, "garbage");
                            default ->
                                line(at, 5001 + random.nextInt(2), "L x " + (at - late) + " " + (30 + at / 1e4) + " 9");
                        });
            }
            Out afterwards = new Out();
            AircraftSorter debrief = new AircraftSorter(List.of(new LineFormat()), AircraftChoice.all(), afterwards);
            datagrams.forEach(debrief::accept);
            debrief.finish();

            Out during = new Out();
            AircraftSorter live = new AircraftSorter(List.of(new LineFormat()), AircraftChoice.all(), during);
            long now = START;
            for (Datagram datagram : datagrams) {
                while (now + 50_000 < datagram.receivedMicros()) {
                    now += 1 + random.nextInt(50_000);
                    live.advanceTo(now);
                }
                live.accept(datagram);
            }
            live.advanceTo(now + 20_000_000);
            live.finish();
            assertThat(during.said).isEqualTo(afterwards.said);
        }
    }

    @Test
    void garbageIsCountedAndTheFormatIsTestedAgainAfterTwentyFailures() {
        sorter.accept(line(0, 5001, "\u0001\u0002\u0003"));
        sorter.accept(line(0.1, 5001, "N"));
        for (int i = 0; i < 25; i++) {
            sorter.accept(line(1 + i * 0.1, 5001, "?" + i));
        }
        sorter.accept(sample(5, 5001, "a"));
        sorter.finish();
        assertThat(sorter.senders())
                .usingRecursiveFieldByFieldElementComparatorIgnoringFields("faults")
                .containsExactly(
                        new AircraftSorter.SenderReport(from(5001), Optional.of("line"), 28, 1, 1, 25, 1, List.of()));
        assertThat(sorter.senders().get(0).firstFault()).get().asString().startsWith("found ");
        assertThat(sorter.aircraft()).hasSize(1);
    }

    @Test
    void pausesComeInOrderWithWhatWasHeld() {
        for (int i = 0; i < 5; i++) {
            sorter.accept(sample(i * 0.2, 5001, "a"));
        }
        sorter.accept(line(0.9, 5001, "P"));
        sorter.accept(line(3, 5001, "R"));
        sorter.finish();
        List<String> said = out.said.getOrDefault(new AircraftKey(from(5001), "a"), List.of());
        assertThat(said).hasSize(8);
        assertThat(said.get(6)).matches("PAUSED at 0.(9|8999)\\d*");
        assertThat(said.get(7)).matches("RESUMED at (3.0|2.999)\\d*");
    }

    @Test
    void aSimulatorStartedAgainOnAnotherPortKeepsItsSeat() {
        for (int i = 0; i < 50; i++) {
            sorter.accept(sample(i * 0.2, 5001, "a"));
        }
        for (int i = 0; i < 50; i++) {
            sorter.accept(sample(30 + i * 0.2, 5002, "a"));
        }
        sorter.finish();
        assertThat(sorter.aircraft()).hasSize(1);
        assertThat(sorter.aircraft().get(0).samples()).isEqualTo(100);
        assertThat(out.said.get(new AircraftKey(from(5001), "a")))
                .anySatisfy(line -> assertThat(line).contains("went on from port 5002"));
    }

    /** Nobody waits 12 s before starting a simulator again; what came meanwhile is not lost. */
    @Test
    void aSimulatorStartedAgainAtOnceKeepsItsSeatToo() {
        for (double lengthS : new double[] {5, 11.8, 30}) {
            Out one = new Out();
            AircraftSorter restarted = new AircraftSorter(List.of(new LineFormat()), AircraftChoice.all(), one);
            for (int i = 0; i < 50; i++) {
                restarted.accept(sample(i * 0.2, 5001, "a"));
            }
            int count = (int) Math.round(lengthS / 0.2);
            for (int i = 0; i < count; i++) {
                restarted.accept(sample(13 + i * 0.2, 5002, "a"));
            }
            restarted.finish();
            assertThat(one.said.keySet()).containsExactly(new AircraftKey(from(5001), "a"));
            assertThat(restarted.aircraft()).hasSize(1);
            assertThat(restarted.aircraft().get(0).samples()).isEqualTo(50 + count);
            assertThat(restarted.aircraft().get(0).late()).isZero();
        }
    }

    private static Datagram at(double atS, int port, double clockS, double latitudeDeg) {
        return line(atS, port, "L  " + clockS + " " + latitudeDeg + " -145");
    }

    /** Two simulators of one machine, neither of which sends a name. */
    @Test
    void whoComesWhereTheSilentOneCannotHaveFlownIsASecondOne() {
        for (int i = 0; i < 50; i++) {
            sorter.accept(at(i * 0.2, 5001, i * 0.2, 30 + i * 1e-4));
        }
        for (int i = 0; i < 50; i++) {
            sorter.accept(at(30 + i * 0.2, 5002, i * 0.2, 30.2 + i * 1e-4)); // 12 NM away
        }
        for (int i = 0; i < 50; i++) {
            sorter.accept(at(40 + i * 0.2, 5001, 40 + i * 0.2, 30.02 + i * 1e-4));
        }
        sorter.finish();
        assertThat(out.said.keySet())
                .containsExactlyInAnyOrder(new AircraftKey(from(5001), ""), new AircraftKey(from(5002), ""));
        assertThat(sorter.aircraft())
                .extracting(AircraftSorter.AircraftReport::samples)
                .containsExactlyInAnyOrder(100L, 50L);
        assertThat(out.said.values()).allSatisfy(AircraftSorterTest::assertOneClock);
    }

    @Test
    void afterLongSilenceOnlyWhoStandsWhereItStoodIsTheSame() {
        for (double awayNm : new double[] {0.2, 2}) {
            Out each = new Out();
            AircraftSorter some = new AircraftSorter(List.of(new LineFormat()), AircraftChoice.all(), each);
            for (int i = 0; i < 50; i++) {
                some.accept(at(i * 0.2, 5001, i * 0.2, 30 + i * 1e-4));
            }
            for (int i = 0; i < 50; i++) {
                some.accept(at(600 + i * 0.2, 5002, i * 0.2, 30.005 + awayNm / 60 + i * 1e-4));
            }
            some.finish();
            assertThat(each.said).hasSize(awayNm < 1 ? 1 : 2);
        }
    }

    /** The seat goes back; there are never two clocks in one flight, and what the second one flew is its own flight. */
    @Test
    void aPortThatSpeaksAgainHasItsSeatBackAndTheOtherIsToldWhole() {
        for (int i = 0; i < 50; i++) {
            sorter.accept(at(i * 0.2, 5001, i * 0.2, 30 + i * 1e-4));
        }
        for (int i = 0; i < 200; i++) {
            sorter.accept(at(30 + i * 0.2, 5002, 7000 + i * 0.2, 30.005 + i * 1e-4));
            if (i >= 100) {
                sorter.accept(at(30.1 + i * 0.2, 5001, 30.1 + i * 0.2, 30.02 + i * 1e-4));
            }
        }
        sorter.finish();
        List<String> first = out.said.getOrDefault(new AircraftKey(from(5001), ""), List.of());
        List<String> second = out.said.getOrDefault(new AircraftKey(from(5002), ""), List.of());
        assertThat(first)
                .anySatisfy(line -> assertThat(line).contains("went on from port 5002"))
                .anySatisfy(line -> assertThat(line).contains("port 5001 is heard again and has its aircraft back"));
        assertThat(second).filteredOn(AircraftSorterTest::isState).hasSize(200);
        assertThat(first).filteredOn(AircraftSorterTest::isState).hasSize(50 + 101 + 100);
        assertOneClock(first);
        assertOneClock(second);
        assertThat(sorter.aircraft()).hasSize(2);
    }

    /** Started again twice, the second time at the port it had at first: one flight. */
    @Test
    void aSimulatorStartedAgainAtItsFirstPortIsStillTheSame() {
        int[] ports = {5001, 5002, 5003, 5001};
        for (int start = 0; start < ports.length; start++) {
            for (int i = 0; i < 50; i++) {
                sorter.accept(at(start * 30 + i * 0.2, ports[start], i * 0.2, 30 + (start * 50 + i) * 1e-4));
            }
        }
        sorter.finish();
        assertThat(out.said.keySet()).containsExactly(new AircraftKey(from(5001), ""));
        assertThat(sorter.aircraft()).singleElement().satisfies(seat -> {
            assertThat(seat.samples()).isEqualTo(200);
            assertThat(seat.late()).isZero();
        });
    }

    /** Ports that come, go and come back near and far, with clocks of their own: {@code -Drejoin.fuzz.rounds=N}. */
    @Test
    void whateverIsSentNoFlightHasTwoClocksAndNoSampleIsInTwo() {
        for (int seed = 0; seed < Integer.getInteger("rejoin.fuzz.rounds", 1000) / 20; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            Out each = new Out();
            AircraftSorter some = new AircraftSorter(List.of(new LineFormat()), AircraftChoice.all(), each);
            double at = 0;
            int sent = 0;
            int port = 5001;
            double offset = 0;
            for (int i = 0; i < 400; i++) {
                at += random.nextInt(30) == 0 ? random.nextDouble(70) : random.nextDouble(0.4);
                if (random.nextInt(20) == 0) {
                    port = 5001 + random.nextInt(4);
                    offset = random.nextInt(3) == 0 ? random.nextDouble(0.3) : 0;
                }
                double latitude = 30 + at * 1e-4 + offset;
                some.accept(at(at, port, at * (port == 5003 ? 1 : 1.02) + port * 1_000, latitude));
                sent++;
            }
            some.finish();
            each.said.values().forEach(AircraftSorterTest::assertOneClock);
            long heard = some.aircraft().stream()
                    .mapToLong(AircraftSorter.AircraftReport::samples)
                    .sum();
            // What one port said while it spoke for another's aircraft may stand in both flights, never in neither.
            assertThat(heard).as("seed %d", seed).isGreaterThanOrEqualTo(sent);
            assertThat(each.said.keySet()).hasSizeLessThanOrEqualTo(4);
        }
    }

    private static boolean isState(String line) {
        return line.matches("[0-9.E-]+ [0-9.]+");
    }

    private static void assertOneClock(List<String> lines) {
        double[] times = lines.stream()
                .filter(AircraftSorterTest::isState)
                .mapToDouble(line -> Double.parseDouble(line.split(" ", -1)[0]))
                .toArray();
        for (int i = 1; i < times.length; i++) {
            assertThat(times[i]).isGreaterThan(times[i - 1]);
        }
    }

    @Test
    void whoComesWhileAnotherOfItsNameFliesIsASecondOneAndLosesNothing() {
        for (int i = 0; i < 50; i++) {
            sorter.accept(sample(i * 0.2, 5001, "a"));
            if (i >= 20) {
                sorter.accept(sample(i * 0.2 + 0.1, 5002, "a"));
            }
        }
        sorter.accept(line(10, 5001, "P"));
        sorter.finish();
        assertThat(sorter.aircraft()).hasSize(2);
        assertThat(out.said.get(new AircraftKey(from(5002), "a"))).hasSize(31);
        assertThat(out.said.get(new AircraftKey(from(5001), "a"))).hasSize(52);
    }

    /** A dozen aircraft of a lab at one address, without names: the one that fell silent is the one that came back. */
    @Test
    void ofManySeatsTheSilentOneCameBack() {
        for (int i = 0; i < 200; i++) {
            for (int port = 1; port <= 12; port++) {
                int from = port == 7 && i >= 50 ? 5007 : port;
                if (port != 7 || i < 50 || i > 60) {
                    sorter.accept(sample(i * 0.2, from, ""));
                }
            }
        }
        sorter.finish();
        assertThat(sorter.aircraft()).hasSize(12);
        assertThat(out.said).hasSize(12).containsKey(new AircraftKey(from(7), ""));
        assertThat(sorter.aircraft())
                .allSatisfy(seat -> assertThat(seat.samples())
                        .isEqualTo(seat.aircraft().sender().getPort() == 7 ? 189 : 200));
    }

    @Test
    void aFloodOfSendersFillsNoMemory() {
        for (int port = 1; port <= 5000; port++) {
            sorter.accept(sample(port * 1e-3, port, "a"));
        }
        assertThat(sorter.senders()).hasSize(AircraftSorter.MOST);
        assertThat(sorter.leftOut()).isEqualTo(5000 - AircraftSorter.MOST);
        sorter.accept(sample(200, 6000, "b"));
        assertThat(sorter.senders()).hasSize(AircraftSorter.MOST);
        assertThat(sorter.leftOut()).isEqualTo(5000 - AircraftSorter.MOST);
        for (int i = 0; i < 5000; i++) {
            sorter.accept(sample(201 + i * 1e-4, 6000, "n" + i));
        }
        sorter.finish();
        assertThat(sorter.aircraft().size()).isLessThanOrEqualTo(AircraftSorter.MOST);
    }
}
