"""--picture of the built program: three formats, whole or not at all."""
import os
import re
import struct
import subprocess
import sys
import xml.etree.ElementTree
import zlib

import tap
from program import call, good, path, write
from tap import equal, holds

PNG = b'\x89PNG\r\n\x1a\n'


def picture(name, *words):
    equal(good('--picture', path(name), *words), '')
    with open(path(name), 'rb') as stream:
        return stream.read()


def png_chunks(content):
    at = len(PNG)
    while at < len(content):
        length, kind = struct.unpack('>I4s', content[at:at + 8])
        data = content[at + 8:at + 8 + length]
        equal(struct.unpack('>I', content[at + 8 + length:at + 12 + length])[0], zlib.crc32(kind + data), 'checksum')
        yield kind, data
        at += 12 + length


def test_png():
    # PNG specification (ISO/IEC 15948): signature, chunks with checksums, IHDR first, IEND last.
    content = picture('state.png')
    equal(content[:8], PNG)
    chunks = list(png_chunks(content))
    equal((chunks[0][0], chunks[-1][0]), (b'IHDR', b'IEND'))
    equal(struct.unpack('>II', chunks[0][1][:8]), (1600, 900))


def test_svg():
    content = picture('state.svg')
    root = xml.etree.ElementTree.fromstring(content)
    equal(root.tag, '{http://www.w3.org/2000/svg}svg')
    equal(root.get('viewBox').split()[2:], ['1600', '900'])
    holds(b'nan' not in content.lower().replace(b'nano', b''), 'a coordinate is not a number')


def test_pdf():
    content = picture('state.pdf')
    holds(content.startswith(b'%PDF-1.') and content.rstrip().endswith(b'%%EOF'))
    told = subprocess.run(['pdfinfo', path('state.pdf')], capture_output=True, text=True, check=True).stdout
    holds(re.search(r'Pages: +1\b', told), told)
    text = subprocess.run(['pdftotext', path('state.pdf'), '-'], capture_output=True, text=True, check=True).stdout
    holds('λ' in text or 'ambda' in text, 'the mixture stands on the picture')


def test_the_same_state_gives_the_same_picture():
    equal(picture('again.png'), picture('state.png'))


def test_another_state_gives_another_picture():
    usual = picture('usual.png')
    for words in (['--air', '120'], ['--coolant', '10'], ['--vacuum', '50'], ['--altitude', '2000']):
        holds(picture('other.png', *words) != usual, words)


def test_text_and_picture_together():
    out = good('--mixture', '--json', '--picture', path('both.png'))
    equal(out, good('--mixture', '--json'))
    holds(os.path.getsize(path('both.png')) > 10000)


def test_an_old_picture_is_replaced():
    write('old.png', 'old')
    holds(picture('old.png').startswith(PNG))


def refused(name, *words):
    result = call('--picture', name, *words)
    equal((result.status, result.out), (2, ''), name)
    holds('--picture' in result.err and name in result.err, result.err)


def test_endings_that_are_no_picture():
    for name in ('state.gif', 'state', 'png', '.png.txt', 'state.PNGX'):
        refused(path(name))
        holds(not os.path.exists(path(name)), name)


def test_places_that_cannot_be_written():
    refused(path('missing/state.png'))
    refused('/dev/full/state.png')
    os.mkdir(path('folder.png'))
    refused(path('folder.png'))


def test_a_disk_that_fills_up_leaves_the_old_picture():
    # A file may grow to 8 blocks of 512 bytes only, and the signal for that is ignored: writing fails half way.
    for ending in ('png', 'svg', 'pdf'):
        old = write(f'kept.{ending}', 'the old one')
        done = subprocess.run(['/bin/sh', '-c', 'trap "" XFSZ; ulimit -f 8; exec "$@"', 'sh', sys.argv[1], '--picture', old],
                              env={}, capture_output=True, check=False)
        equal((done.returncode, done.stdout), (2, b''), ending)
        holds(b'--picture' in done.stderr, done.stderr)
        with open(old, encoding='utf-8') as stream:
            equal(stream.read(), 'the old one')


sys.exit(tap.run(sys.modules[__name__]))
