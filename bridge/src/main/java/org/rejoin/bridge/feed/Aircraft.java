package org.rejoin.bridge.feed;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;

/** One aircraft that is followed. */
final class Aircraft implements SampleSink {

    private final SeatKey key;
    private final SeatSink sink;
    private final SampleClock clock = new SampleClock(this);
    private String marking = "";
    private long samples;
    private long heardMicros;

    Aircraft(SeatKey key, SeatSink sink) {
        this.key = key;
        this.sink = sink;
    }

    void accept(Decoded.Sample sample, long receivedMicros) {
        samples++;
        heardMicros = receivedMicros;
        if (!sample.marking().isEmpty()) {
            marking = sample.marking();
        }
        clock.accept(sample);
    }

    void control(Decoded.Control.What what, long nowMicros) {
        clock.settle(); // what is held happened before
        sink.control(key, clock.timeAt(nowMicros * 1e-6), what);
    }

    void note(String text, long nowMicros) {
        sink.note(key, clock.timeAt(nowMicros * 1e-6), text);
    }

    void flush() {
        clock.flush();
    }

    SeatKey key() {
        return key;
    }

    long heardMicros() {
        return heardMicros;
    }

    Seats.SeatReport report() {
        return new Seats.SeatReport(key, marking, samples, clock.late(), clock.timeBase());
    }

    @Override
    public void state(AircraftState state) {
        sink.state(key, state);
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
