package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.PatternLayout;
import ch.qos.logback.classic.spi.LoggingEvent;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** Diagnostics against Logback's own reading of the pattern that they follow. */
class LogSetupTest {

    private final LoggerContext context = new LoggerContext();

    @Test
    void aDiagnosticIsALineOfTimeLevelClassAndMessage() {
        assertThat(line(event("org.rejoin.bridge.feed.UdpFeed", Level.WARN, null)))
                .isEqualTo(byPattern(event("org.rejoin.bridge.feed.UdpFeed", Level.WARN, null)))
                .contains(" WARN  UdpFeed: port 3000 lost");
        assertThat(line(event("Rejoin", Level.DEBUG, null))).isEqualTo(byPattern(event("Rejoin", Level.DEBUG, null)));
    }

    @Test
    void whereAnExceptionComesFromStandsUnderIt() {
        Exception broken = new IllegalStateException("disk", new IllegalArgumentException("full"));
        assertThat(line(event("a.B", Level.ERROR, broken)))
                .isEqualTo(byPattern(event("a.B", Level.ERROR, broken)))
                .contains("Caused by: java.lang.IllegalArgumentException: full");
    }

    private static String line(LoggingEvent event) {
        return new LogSetup.Line().doLayout(event);
    }

    private String byPattern(LoggingEvent event) {
        PatternLayout layout = new PatternLayout();
        layout.setContext(context);
        layout.setPattern("%d{HH:mm:ss.SSS} %-5level %logger{0}: %msg%n");
        layout.start();
        return layout.doLayout(event);
    }

    private LoggingEvent event(String logger, Level level, @Nullable Throwable thrown) {
        LoggingEvent event =
                new LoggingEvent("", context.getLogger(logger), level, "port {} lost", thrown, new Object[] {3000});
        event.setTimeStamp(1_780_272_000_123L);
        return event;
    }
}
