package org.rejoin.bridge.flight;

import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

/** The kind of an event and its fields in the log, as its record has them. */
final class EventForm {

    private static final ClassValue<EventForm> FORMS = new ClassValue<>() {
        @Override
        protected EventForm computeValue(Class<?> event) {
            return new EventForm(event);
        }
    };

    private final EventKind kind;
    private final List<RecordComponent> fields;

    private EventForm(Class<?> event) {
        this.kind = EventKind.valueOf(logName(event.getSimpleName()).toUpperCase(Locale.ROOT));
        // The time of an event is a column of its own.
        this.fields = Arrays.stream(event.getRecordComponents())
                .filter(component -> !component.getName().equals("timeS")
                        && !component.isAnnotationPresent(FlightEvent.WrongTurn.Unlogged.class))
                .toList();
    }

    static EventForm of(FlightEvent event) {
        return FORMS.get(event.getClass());
    }

    EventKind kind() {
        return kind;
    }

    void write(FlightEvent event, FlightEvent.Fields out) {
        for (RecordComponent field : fields) {
            String name = logName(field.getName());
            Object value = value(event, field);
            if (value instanceof Number number) {
                out.number(name, number.doubleValue());
            } else if (value instanceof OptionalDouble known) {
                known.ifPresent(number -> out.number(name, number));
            } else if (value instanceof Boolean flag) {
                out.flag(name, flag);
            } else if (value instanceof Enum<?> one) {
                out.text(name, one.name().toLowerCase(Locale.ROOT));
            } else if (value instanceof String text) {
                out.text(name, text);
            } else {
                throw new IllegalStateException("no field of the log holds " + name + " of " + kind);
            }
        }
    }

    private static Object value(FlightEvent event, RecordComponent field) {
        try {
            return field.getAccessor().invoke(event);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("a component of an event can be read", e);
        }
    }

    /** CrossTrackNm is cross_track_nm. */
    private static String logName(String name) {
        return name.replaceAll("(?<=.)([A-Z])", "_$1").toLowerCase(Locale.ROOT);
    }
}
