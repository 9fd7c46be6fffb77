/** The AAC-LC decoder in plain JavaScript, for streams with ADTS headers; it takes more channels than the native one. */
import AV from 'av';
import AACDecoder from 'aac';

/** Places of the channels in an AAC stream (centre first, ISO/IEC 14496-3 table 1.19) in the order of a WAV file. */
const ORDER = { 3: [1, 2, 0], 4: [1, 2, 0, 3], 5: [1, 2, 0, 3, 4], 6: [1, 2, 0, 5, 3, 4] };
const RATES = [96000, 88200, 64000, 48000, 44100, 32000, 24000, 22050, 16000, 12000, 11025, 8000];
const FRAME = 1024;

/** Gives a function that decodes a whole small ADTS stream. */
export function aacDecoder() {
  return (bytes) => {
    const units = split(bytes);
    const { rateIndex, channels } = units[0];
    const decoder = Object.create(AACDecoder.prototype);
    decoder.format = {};
    decoder.init();
    decoder.setCookie(bufferOf(Uint8Array.of((2 << 3) | (rateIndex >> 1), ((rateIndex & 1) << 7) | (channels << 3))));
    const channelData = Array.from({ length: channels }, () => new Float32Array(units.length * FRAME));
    units.forEach(({ unit }, n) => {
      decoder.bitstream = new AV.Bitstream(AV.Stream.fromBuffer(bufferOf(unit)));
      const interleaved = decoder.readChunk();
      channelData.forEach((samples, c) => {
        const place = ORDER[channels]?.[c] ?? c;
        for (let i = 0; i < FRAME; i++) samples[n * FRAME + i] = interleaved[i * channels + place];
      });
    });
    return { channelData, sampleRate: RATES[rateIndex] };
  };
}

const bufferOf = (bytes) => new AV.Buffer(new Uint8Array(bytes));

/** Parts the stream into its access units, headers included. */
function split(bytes) {
  const units = [];
  for (let at = 0; at + 7 <= bytes.length;) {
    const length = ((bytes[at + 3] & 3) << 11) | (bytes[at + 4] << 3) | (bytes[at + 5] >> 5);
    const rateIndex = (bytes[at + 2] >> 2) & 15;
    const channels = ((bytes[at + 2] & 1) << 2) | (bytes[at + 3] >> 6);
    units.push({ unit: bytes.subarray(at, at + length), rateIndex, channels });
    at += length;
  }
  return units;
}
