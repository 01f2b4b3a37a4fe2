package org.rejoin.console.flight;

import java.util.List;
import java.util.function.Function;
import java.util.function.Supplier;

/** Which of the aircraft on the port are flown through the lesson. */
public sealed interface Following {

    /** The first one heard. */
    record First() implements Following {
        @Override
        public <R> R fold(Supplier<R> first, Function<Named, R> named, Supplier<R> every) {
            return first.get();
        }
    }

    /**
     * For each name the first aircraft that goes by it.
     *
     * @param names as the sender or this program calls the aircraft, at least one
     */
    record Named(List<String> names) implements Following {
        public Named {
            names = List.copyOf(names);
            if (names.isEmpty()) {
                throw new IllegalArgumentException("no name of an aircraft is given");
            }
        }

        @Override
        public <R> R fold(Supplier<R> first, Function<Named, R> named, Supplier<R> every) {
            return named.apply(this);
        }
    }

    /** All of them, each by itself. */
    record Every() implements Following {
        @Override
        public <R> R fold(Supplier<R> first, Function<Named, R> named, Supplier<R> every) {
            return every.get();
        }
    }

    /**
     * Reads whichever it is.
     *
     * @param first what comes of the first one heard
     * @param named what comes of those named
     * @param every what comes of all
     */
    <R> R fold(Supplier<R> first, Function<Named, R> named, Supplier<R> every);

    /**
     * {@return whether several aircraft may be flown, so that each needs a place of its own; false for the first, and for a
     * single name}
     */
    default boolean several() {
        return fold(() -> false, named -> named.names().size() > 1, () -> true);
    }
}
