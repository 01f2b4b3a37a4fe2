package org.rejoin.bridge.feed;

import java.net.InetSocketAddress;
import java.util.Optional;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;

import org.jspecify.annotations.Nullable;

/**
 * One aircraft that is followed. One sender at a time speaks for it: the one it was first heard from, or another port that
 * goes on with its flight until the first is heard again.
 */
final class Aircraft implements SampleClock.Sink {

    /** Five minutes at 20 Hz, or twenty at 5; a lab's dozen of seats started again costs some 20 MB. */
    private static final int MOST_SAID = 6_000;

    private final AircraftKey key;
    private final int exercise;
    private final AircraftSink sink;
    private final SampleClock clock = new SampleClock(this);
    private final HeldValues held = new HeldValues();
    private final SentMotion motion = new SentMotion();
    private String marking = "";
    private long samples;
    private long heardMicros;
    private final LastSeen seen = new LastSeen();
    private InetSocketAddress speaker;
    /** What a second port has said as this aircraft; null while its own port speaks. */
    private @Nullable Said said;

    Aircraft(AircraftKey key, int exercise, AircraftSink sink) {
        this.key = key;
        this.exercise = exercise;
        this.sink = sink;
        this.speaker = key.sender();
    }

    void accept(Decoded.Sample sample, long receivedMicros) {
        samples++;
        heardMicros = receivedMicros;
        if (!sample.marking().isEmpty()) {
            marking = sample.marking();
        }
        seen.at(sample, receivedMicros);
        if (said != null) {
            said.add(sample, receivedMicros);
        }
        clock.accept(sample);
    }

    /** Whether a flight leads from where it was last seen to this sample of another sender. */
    boolean leadsTo(Decoded.Sample sample, long receivedMicros) {
        return Decoded.oneExercise(exercise, sample.exercise()) && seen.leadsTo(sample, receivedMicros);
    }

    int exercise() {
        return exercise;
    }

    /** Address and port that speak for it now. */
    InetSocketAddress speaker() {
        return speaker;
    }

    /** Another port goes on with the flight; what it says is kept, should it turn out to be another aircraft. */
    void goesOnFrom(InetSocketAddress port, long nowMicros) {
        clock.otherSender();
        said = new Said(MOST_SAID);
        speaker = port;
        sink.goesOnFrom(key, port.getPort());
        note("its sender went on from port " + port.getPort(), nowMicros);
    }

    /** An earlier port is heard again and has its aircraft back; what was said meanwhile. */
    Said backTo(InetSocketAddress port, long nowMicros) {
        clock.otherSender();
        Said meanwhile = said == null ? new Said(0) : said;
        said = port.equals(key.sender()) ? null : new Said(MOST_SAID);
        boolean gone = nowMicros - heardMicros >= Unidentified.GONE_MICROS;
        sink.goesOnFrom(key, port.getPort());
        note(
                gone
                        ? "its sender went on from port " + port.getPort() + " again"
                        : "port " + port.getPort() + " is heard again and has its aircraft back; what came from port "
                                + speaker.getPort() + " meanwhile is another aircraft's",
                nowMicros);
        speaker = port;
        return meanwhile;
    }

    void control(Decoded.Control.What what, long nowMicros) {
        if (said != null) {
            said.add(what, nowMicros);
        }
        clock.settle(); // what is held happened before
        sink.control(key, clock.timeAt(nowMicros * 1e-6), what);
    }

    void note(String text, long nowMicros) {
        sink.note(key, clock.timeAt(nowMicros * 1e-6), text);
    }

    void flush() {
        clock.flush();
    }

    AircraftKey key() {
        return key;
    }

    long heardMicros() {
        return heardMicros;
    }

    AircraftSorter.AircraftReport report() {
        return new AircraftSorter.AircraftReport(key, marking, samples, clock.late(), clock.timeBase());
    }

    @Override
    public void state(AircraftState state) {
        AircraftState used = motion.used(state);
        Optional<String> leftOut = motion.said();
        if (leftOut.isPresent()) {
            sink.note(key, state.timeS(), leftOut.get());
        }
        sink.state(key, held.with(used));
    }

    @Override
    public void silence(double receiptS) {
        sink.silence(key, receiptS);
    }

    @Override
    public void timeBase(double timeS, TimeBase base) {
        sink.timeBase(key, timeS, base);
    }

    @Override
    public void clockSet(double timeS, String text) {
        sink.note(key, timeS, text);
    }
}
