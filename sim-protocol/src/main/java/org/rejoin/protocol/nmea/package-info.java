/**
 * NMEA 0183 sentences over UDP, bare or in IEC 61162-450 datagrams.
 *
 * <p>Start at {@link org.rejoin.protocol.nmea.NmeaFormat}.
 */
@NullMarked
package org.rejoin.protocol.nmea;

import org.jspecify.annotations.NullMarked;
