"""Runs Jupyter's own tests of a kernel (jupyter_kernel_test) against the kernel of Barwise, started by Jupyter."""

import unittest

import jupyter_kernel_test


class BarwiseKernelTests(jupyter_kernel_test.KernelTests):
    kernel_name = "barwise"
    language_name = "typescript"
    file_extension = ".ts"
    code_hello_world = "console.log('hello, world');"
    code_stderr = "console.error('careful');"
    completion_samples = [
        {"text": "analyseT", "matches": {"analyseTrack"}},
        {"text": "charts.wavef", "matches": {"waveformChart"}},
        {"text": "'\N{MUSICAL SYMBOL G CLEF}'; charts.wavef", "matches": {"waveformChart"}},
    ]
    complete_code_samples = ["1", "const a = 1;", "function f() { return 1; }"]
    incomplete_code_samples = ["function f() {", "for (const a of [1]) {"]
    invalid_code_samples = ["const = 3;", "let 1a"]
    code_page_something = "analyseTrack?"
    code_generate_error = "throw new Error('no bar 0');"
    code_execute_result = [
        {"code": "1 + 2", "result": "3"},
        {"code": "6 * 7", "result": "42"},
        {"code": "'a' + 'b'", "result": "ab"},
        {"code": "({ phrases: [], phraseBars: 8 })", "mime": "text/plain"},
    ]
    code_display_data = [
        {"code": "await show({ bundle: { 'text/html': '<b>8</b>', 'text/plain': '8' } });", "mime": "text/html"}
    ]
    code_history_pattern = "1?+*"
    supported_history_operations = ("tail", "range", "search")
    code_inspect_sample = "analyseTrack"
    code_clear_output = "clearOutput();"


class BarwiseKernelHabits(unittest.TestCase):
    """What the protocol asks beyond those tests."""

    @classmethod
    def setUpClass(cls):
        cls.km, cls.kc = jupyter_kernel_test.start_new_kernel(kernel_name="barwise")

    @classmethod
    def tearDownClass(cls):
        cls.kc.stop_channels()
        cls.km.shutdown_kernel()

    def run_cell(self, code, interrupt_after=None):
        """Runs a cell; gives the content of its reply and the contents of what was published, by type."""
        msg_id = self.kc.execute(code)
        if interrupt_after is not None:
            import threading

            threading.Timer(interrupt_after, self.km.interrupt_kernel).start()
        published = []
        while True:
            msg = self.kc.get_iopub_msg(timeout=20)
            if msg["parent_header"].get("msg_id") != msg_id:
                continue
            if msg["msg_type"] == "status" and msg["content"]["execution_state"] == "idle":
                break
            published.append((msg["msg_type"], msg["content"]))
        while True:
            reply = self.kc.get_shell_msg(timeout=20)
            if reply["parent_header"].get("msg_id") == msg_id:
                return reply["content"], published

    def test_interrupts_whatever_a_cell_does_and_keeps_the_names(self):
        self.run_cell("let kept = 32;")
        for endless in ("for (;;) {}", "await new Promise(() => undefined);", "await 0;\nfor (;;) {}"):
            with self.subTest(endless=endless):
                reply, _ = self.run_cell(endless, interrupt_after=0.5)
                self.assertEqual((reply["status"], reply["ename"]), ("error", "Interrupted"))
        _, published = self.run_cell("kept")
        self.assertIn("32", [c["data"]["text/plain"] for t, c in published if t == "execute_result"])

    def test_names_the_line_of_the_cell_that_failed(self):
        reply, _ = self.run_cell("type Bars = number;\n\nconst bars: Bars = 8;\nthrow new RangeError('no bar 0');")
        self.assertEqual((reply["ename"], reply["evalue"]), ("RangeError", "no bar 0"))
        self.assertEqual(reply["traceback"][1:3], ["  line 4 of this cell", "    4 | throw new RangeError('no bar 0');"])

    def test_leaves_out_the_cells_that_wait_behind_a_failure(self):
        ids = [self.kc.execute(code) for code in ("throw new Error('x');", "let behind = 1;")]
        replies = {}
        while len(replies) < 2:
            reply = self.kc.get_shell_msg(timeout=20)
            replies[reply["parent_header"].get("msg_id")] = reply["content"]["status"]
        self.assertEqual([replies[i] for i in ids], ["error", "aborted"])
        self.assertEqual(self.run_cell("1")[0]["status"], "ok")

    def test_outlives_a_cell_that_ends_its_process(self):
        reply, published = self.run_cell("process.exit(3);")
        self.assertEqual(reply["ename"], "KernelDied")
        self.assertIn("run the cells above again", str(published))
        self.assertEqual(self.run_cell("typeof analyseTrack")[0]["status"], "ok")

    def test_updates_a_display_in_place(self):
        code = "import * as tslab from 'tslab';\nconst shown = tslab.newDisplay(); shown.text('1'); shown.text('2');"
        _, published = self.run_cell(code)
        types = [t for t, _ in published if "display" in t]
        self.assertEqual(types, ["display_data", "update_display_data"])


if __name__ == "__main__":
    unittest.main()
