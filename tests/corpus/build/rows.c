/* rows MODULE PCM LOG: plays a tracker module once through.
   PCM gets 16-bit stereo samples at 44.1 kHz; LOG one line for the title ("title ..."), every instrument
   ("instrument NUMBER NAME"), every row as it starts ("row SECONDS ORDER"), every note in it
   ("note CHANNEL NOTE INSTRUMENT") and the end ("end SECONDS"). */
#include <libopenmpt/libopenmpt.h>
#include <stdio.h>
#include <stdlib.h>

enum { RATE = 44100, STEP = 16, LONGEST = 900 };

static openmpt_module *load(const char *path) {
  FILE *file = fopen(path, "rb");
  if (!file) return NULL;
  fseek(file, 0, SEEK_END);
  size_t size = (size_t)ftell(file);
  rewind(file);
  void *bytes = malloc(size);
  openmpt_module *module = NULL;
  if (bytes && fread(bytes, 1, size, file) == size)
    module = openmpt_module_create_from_memory2(bytes, size, NULL, NULL, NULL, NULL, NULL, NULL, NULL);
  free(bytes);
  fclose(file);
  return module;
}

static void log_names(openmpt_module *module, FILE *log) {
  fprintf(log, "title %s\n", openmpt_module_get_metadata(module, "title"));
  int instruments = openmpt_module_get_num_instruments(module);
  int count = instruments ? instruments : openmpt_module_get_num_samples(module);
  for (int i = 0; i < count; i++)
    fprintf(log, "instrument %d %s\n", i + 1,
            instruments ? openmpt_module_get_instrument_name(module, i) : openmpt_module_get_sample_name(module, i));
}

static void log_row(openmpt_module *module, double seconds, FILE *log) {
  int pattern = openmpt_module_get_current_pattern(module), row = openmpt_module_get_current_row(module);
  fprintf(log, "row %.5f %d\n", seconds, openmpt_module_get_current_order(module));
  for (int c = 0; c < openmpt_module_get_num_channels(module); c++) {
    int note = openmpt_module_get_pattern_row_channel_command(module, pattern, row, c, OPENMPT_MODULE_COMMAND_NOTE);
    int played = openmpt_module_get_pattern_row_channel_command(module, pattern, row, c, OPENMPT_MODULE_COMMAND_INSTRUMENT);
    if (note || played) fprintf(log, "note %d %d %d\n", c, note, played);
  }
}

int main(int argc, char **argv) {
  openmpt_module *module = argc == 4 ? load(argv[1]) : NULL;
  FILE *pcm = module ? fopen(argv[2], "wb") : NULL, *log = module ? fopen(argv[3], "w") : NULL;
  if (!pcm || !log) return fprintf(stderr, "usage: rows MODULE PCM LOG\n"), 2;
  openmpt_module_set_repeat_count(module, 0);
  openmpt_module_set_render_param(module, OPENMPT_MODULE_RENDER_VOLUMERAMPING_STRENGTH, 1);
  log_names(module, log);
  long frames = 0;
  int order = -1, row = -1;
  short block[2 * STEP];
  for (size_t got; frames < (long)RATE * LONGEST && (got = openmpt_module_read_interleaved_stereo(module, RATE, STEP, block)) > 0; frames += (long)got) {
    int o = openmpt_module_get_current_order(module), r = openmpt_module_get_current_row(module);
    if (o != order || r != row) log_row(module, (double)frames / RATE, log);
    order = o;
    row = r;
    fwrite(block, 2 * sizeof *block, got, pcm);
  }
  fprintf(log, "end %.5f\n", (double)frames / RATE);
  return 0;
}
