package org.rejoin.console.cli;

import java.util.Map;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.pattern.ThrowableProxyConverter;
import ch.qos.logback.classic.spi.Configurator;
import ch.qos.logback.classic.spi.ConfiguratorRank;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.ConsoleAppender;
import ch.qos.logback.core.LayoutBase;
import ch.qos.logback.core.encoder.LayoutWrappingEncoder;
import ch.qos.logback.core.spi.ContextAwareBase;
import ch.qos.logback.core.util.CachingDateFormatter;

/**
 * Diagnostics go to standard error, for standard output belongs to the commands: warnings, or all with {@code --verbose}.
 * Found by Logback as a service; said here and not in a file or a pattern, because reading those took longer than opening
 * the socket.
 */
@ConfiguratorRank(ConfiguratorRank.CUSTOM_HIGH_PRIORITY)
public final class LogSetup extends ContextAwareBase implements Configurator {

    /** Chatty below a warning even for diagnostics. */
    private static final Map<String, Level> OTHERS = Map.of("io.netty", Level.WARN);

    @Override
    public ExecutionStatus configure(LoggerContext context) {
        Line line = new Line();
        line.setContext(context);
        line.start();
        LayoutWrappingEncoder<ILoggingEvent> encoder = new LayoutWrappingEncoder<>();
        encoder.setContext(context);
        encoder.setLayout(line);
        encoder.start();
        ConsoleAppender<ILoggingEvent> err = new ConsoleAppender<>();
        err.setContext(context);
        err.setName("STDERR");
        err.setTarget("System.err");
        err.setEncoder(encoder);
        err.start();
        Logger root = context.getLogger(Logger.ROOT_LOGGER_NAME);
        root.setLevel(Level.toLevel(System.getProperty(AnyCommand.Verbose.LEVEL), Level.WARN));
        root.addAppender(err);
        OTHERS.forEach((name, level) -> context.getLogger(name).setLevel(level));
        return ExecutionStatus.DO_NOT_INVOKE_NEXT_IF_ANY;
    }

    /** Time, level, class and message; below it where an exception comes from. */
    static final class Line extends LayoutBase<ILoggingEvent> {

        @Override
        public String doLayout(ILoggingEvent event) {
            String logger = event.getLoggerName();
            String level = (event.getLevel() + "     ").substring(0, 5);
            return Times.CLOCK.format(event.getTimeStamp()) + " " + level + " "
                    + logger.substring(logger.lastIndexOf('.') + 1) + ": " + event.getFormattedMessage()
                    + System.lineSeparator() + Times.TRACE.convert(event);
        }
    }

    /** Made for the first line that is logged: mostly there is none. */
    private static final class Times {
        static final CachingDateFormatter CLOCK = new CachingDateFormatter("HH:mm:ss.SSS");
        static final ThrowableProxyConverter TRACE = new ThrowableProxyConverter();

        static {
            TRACE.start();
        }
    }
}
