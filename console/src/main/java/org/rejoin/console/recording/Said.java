package org.rejoin.console.recording;

import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

import org.rejoin.bridge.flight.FlightEvent;

/** All that was said and written. */
public record Said(
        List<InstructorFile.Spoken> spoken,
        List<InstructorFile.Remark> remarks,
        List<ReadBack> readbacks,
        List<InstructorFile.Again> again) {

    public static final Said NOTHING = new Said(List.of(), List.of(), List.of(), List.of());

    public Said {
        spoken = List.copyOf(spoken);
        remarks = List.copyOf(remarks);
        readbacks = List.copyOf(readbacks);
        again = List.copyOf(again);
    }

    /** {@return what was said on the radio, as the flight's record tells it, in order of time} */
    public List<FlightEvent> talk() {
        return Stream.concat(
                        again.stream().map(InstructorFile.Again::event),
                        readbacks.stream().map(ReadBack::event))
                .sorted(Comparator.comparingDouble(FlightEvent::timeS))
                .toList();
    }

    /** The part for one seat. */
    public Said to(String seat) {
        return new Said(
                spoken.stream().filter(each -> each.seat().equals(seat)).toList(),
                remarks.stream()
                        .filter(each -> each.seat().equals(seat) || each.seat().isEmpty())
                        .toList(),
                readbacks.stream().filter(each -> each.seat().equals(seat)).toList(),
                again.stream().filter(each -> each.seat().equals(seat)).toList());
    }
}
