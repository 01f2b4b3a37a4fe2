package org.rejoin.console.recording;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.MappedByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.ReadableByteChannel;
import java.nio.channels.WritableByteChannel;

/** A file on a disk with room for so many octets; the last write takes what fits and then fails, as real ones do. */
final class LimitedDisk extends FileChannel {

    private final FileChannel file;
    private volatile long room;

    LimitedDisk(FileChannel file, long room) {
        this.file = file;
        this.room = room;
    }

    /** Somebody made room, octets in all. */
    void room(long octets) {
        room = octets;
    }

    @Override
    public int write(ByteBuffer src) throws IOException {
        long left = room - file.position();
        if (left == 0) {
            throw new IOException("No space left on device");
        }
        ByteBuffer fits = src.slice(src.position(), (int) Math.min(left, src.remaining()));
        int written = file.write(fits);
        src.position(src.position() + written);
        return written;
    }

    @Override
    public long position() throws IOException {
        return file.position();
    }

    @Override
    public FileChannel truncate(long size) throws IOException {
        file.truncate(size);
        return this;
    }

    @Override
    public void force(boolean metaData) throws IOException {
        file.force(metaData);
    }

    @Override
    protected void implCloseChannel() throws IOException {
        file.close();
    }

    @Override
    public long size() throws IOException {
        return file.size();
    }

    @Override
    public int read(ByteBuffer dst) {
        throw new UnsupportedOperationException();
    }

    @Override
    public long read(ByteBuffer[] dsts, int offset, int length) {
        throw new UnsupportedOperationException();
    }

    @Override
    public long write(ByteBuffer[] srcs, int offset, int length) {
        throw new UnsupportedOperationException();
    }

    @Override
    public FileChannel position(long newPosition) {
        throw new UnsupportedOperationException();
    }

    @Override
    public long transferTo(long position, long count, WritableByteChannel target) {
        throw new UnsupportedOperationException();
    }

    @Override
    public long transferFrom(ReadableByteChannel src, long position, long count) {
        throw new UnsupportedOperationException();
    }

    @Override
    public int read(ByteBuffer dst, long position) {
        throw new UnsupportedOperationException();
    }

    @Override
    public int write(ByteBuffer src, long position) {
        throw new UnsupportedOperationException();
    }

    @Override
    public MappedByteBuffer map(MapMode mode, long position, long size) {
        throw new UnsupportedOperationException();
    }

    @Override
    public FileLock lock(long position, long size, boolean shared) {
        throw new UnsupportedOperationException();
    }

    @Override
    public FileLock tryLock(long position, long size, boolean shared) {
        throw new UnsupportedOperationException();
    }
}
