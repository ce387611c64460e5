using System.Globalization;
using System.Security.Cryptography;
using DrumPrint.Flac;
using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Audio;

/// <summary>Samples that are coded as FLAC. Places are noted as they are come by, so that going back decodes little twice.</summary>
internal sealed class FlacBytes : SampleBytes
{
    private readonly AudioFileLayout _layout;
    private readonly FlacStreamInfo _stream;
    private readonly FlacFrames _frames;
    private readonly FlacWords _words;
    private readonly IncrementalHash? _md5;
    private readonly List<(long Number, long Sample, long Offset)> _places = [];
    private long _from;
    private long _end;
    private long _proved;

    /// <param name="handle">The open file.</param>
    /// <param name="layout">Where things are in it.</param>
    /// <param name="proves">Whether all samples are held against the file's own hash, once they have all been read in order.</param>
    public FlacBytes(SafeFileHandle handle, AudioFileLayout layout, bool proves)
    {
        (_layout, _stream) = (layout, layout.Flac!);
        _frames = new FlacFrames(handle, _stream);
        _words = new FlacWords(_stream, layout.Info.Encoding.Bytes());
#pragma warning disable CA5351 // The format has MD5 (RFC 9639, section 8.2); it tells damage, nothing rests on it for trust.
        _md5 = proves && _stream.Md5 is not null ? IncrementalHash.CreateHash(HashAlgorithmName.MD5) : null;
#pragma warning restore CA5351
        Note();
    }

    public override bool AreOfFile => false;

    public override void Fetch(long frame, Span<byte> bytes)
    {
        while (bytes.Length > 0)
        {
            Reach(frame);
            var part = _words.Of((int)(frame - _from), (int)Math.Min(_end - frame, bytes.Length / _layout.FrameBytes));
            part.CopyTo(bytes);
            bytes = bytes[part.Length..];
            frame += part.Length / _layout.FrameBytes;
        }
    }

    /// <summary>Counts the samples of a stream that does not say how many it has.</summary>
    public static long Count(SafeFileHandle handle, FlacStreamInfo stream, string path)
    {
        var frames = new FlacFrames(handle, stream);
        Guarded(path, stream.RateHz, frames, () =>
        {
            while (!frames.IsAtEnd)
            {
                frames.Next();
                FlacHeaderReader.RequireUsual(frames.NextSample, stream.RateHz, path);
            }
        });
        return frames.NextSample;
    }

    public override void Dispose()
    {
        _md5?.Dispose();
        base.Dispose();
    }

    private void Reach(long frame)
    {
        if (frame < _from || (frame >= _end && _places[^1].Sample > _end && _places[^1].Sample <= frame))
        {
            var place = _places[_places.FindLastIndex(p => p.Sample <= frame)];
            _frames.MoveTo(place.Number, place.Sample, place.Offset);
            (_from, _end) = (place.Sample, place.Sample);
        }

        while (frame >= _end)
        {
            Guarded(_layout.Info.Path, _stream.RateHz, _frames, DecodeNext);
        }
    }

    private void DecodeNext()
    {
        Note();
        if (_frames.IsAtEnd)
        {
            throw new FlacDamageException("it is not there", isCut: true);
        }

        _from = _frames.NextSample;
        _frames.Next();
        _end = _frames.NextSample;
        _words.Take(_frames);
        if (_end > _layout.Info.Frames)
        {
            throw new FlacDamageException(FormattableString.Invariant($"it goes on to sample {_end}, but the header says that the file has {_layout.Info.Frames}"));
        }

        if (_md5 is not null && _proved == _from)
        {
            _md5.AppendData(_words.ForHash());
            _proved = _end;
        }

        if (_end == _layout.Info.Frames)
        {
            Prove();
        }
    }

    private void Prove()
    {
        if (_md5 is not null && _proved == _end)
        {
            _proved = -1;
            if (Convert.ToHexStringLower(_md5.GetHashAndReset()) != _stream.Md5)
            {
                throw new AudioFileException(_layout.Info.Path, "its samples are not those that were coded: the hash of all of them (MD5) is another than its header says. Copy the file again from its source.");
            }
        }

        if (_frames.GoesOn())
        {
            throw new AudioFileException(_layout.Info.Path, FormattableString.Invariant($"the header promises {_layout.Info.Frames} frames, but the file goes on after them. Copy it again from its source."));
        }

        _frames.MoveTo(_frames.Number, _end, _layout.Samples.End);
    }

    // One in a second: few, however long the file is.
    private void Note()
    {
        if (_places.Count == 0 || _frames.NextSample >= _places[^1].Sample + _stream.RateHz)
        {
            _places.Add((_frames.Number, _frames.NextSample, _frames.NextOffset));
        }
    }

    private static void Guarded(string path, int rateHz, FlacFrames frames, Action decode)
    {
        try
        {
            decode();
        }
        catch (FlacDamageException e)
        {
            var at = string.Create(CultureInfo.InvariantCulture, $"FLAC frame {frames.Number + 1}, from {(double)frames.NextSample / rateHz:0.000} s on (frame {frames.NextSample}),");
            throw new AudioFileException(path, e.IsCut
                ? $"the file is cut short: {at} is missing or not whole. Copy it again from its source."
                : $"the file is damaged: {at} cannot be decoded, for {e.Problem}. Copy it again from its source.");
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Reading(path, e);
        }
    }
}
