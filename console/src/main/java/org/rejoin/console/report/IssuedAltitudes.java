package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;

import org.rejoin.bridge.Amendment;

/**
 * The altitude that each clearance was issued with: beside its words in the lesson or by the instructor, else in them.
 * The same words may be said again with another altitude, so each amendment belongs to one clearance only.
 */
final class IssuedAltitudes {

    /** A clearance is spoken at the instant it is due; the recording keeps that to a thousandth of a second. */
    private static final double SAME_INSTANT_S = 2e-3;

    private final List<Amendment> left;

    private IssuedAltitudes(List<Amendment> left) {
        this.left = left;
    }

    /**
     * Altitudes.
     *
     * @return feet, one for each amendment of the trace, in its order; empty where none was assigned
     */
    static List<Optional<Double>> of(DebriefedFlight flight) {
        // The order of the seat: those of the lesson, then those issued in flight.
        Stream<Amendment> all = Stream.concat(
                flight.lesson().amendments().stream(),
                flight.debrief().said().spoken().stream()
                        .map(each -> new Amendment(
                                new Amendment.When.ElapsedS(each.elapsedS()), each.say(), each.altitudeFt())));
        IssuedAltitudes altitudes = new IssuedAltitudes(new ArrayList<>(all.toList()));
        return flight.trace().amendments().stream().map(altitudes::next).toList();
    }

    private Optional<Double> next(FlightTrace.Amended amended) {
        Optional<Amendment> issued = left.stream()
                .filter(each -> each.say()
                        .trim()
                        .equals(amended.route().clearance().text().trim()))
                .filter(each -> dueS(each, amended.timeS()) <= amended.timeS() + SAME_INSTANT_S)
                .min(Comparator.comparing((Amendment each) -> !exact(each, amended.timeS()))
                        .thenComparingDouble(each -> dueS(each, amended.timeS())));
        issued.ifPresent(left::remove);
        OptionalDouble beside = issued.map(Amendment::altitudeFt).orElse(OptionalDouble.empty());
        OptionalDouble altitude =
                beside.isPresent() ? beside : amended.route().clearance().altitudeFt();
        return altitude.isPresent() ? Optional.of(altitude.getAsDouble()) : Optional.empty();
    }

    private static boolean exact(Amendment amendment, double timeS) {
        return amendment.when() instanceof Amendment.When.ElapsedS elapsed
                && Math.abs(elapsed.seconds() - timeS) <= SAME_INSTANT_S;
    }

    /** One that waits for a place is due whenever it was spoken. */
    private static double dueS(Amendment amendment, double timeS) {
        return amendment.when() instanceof Amendment.When.ElapsedS elapsed ? elapsed.seconds() : timeS;
    }
}
