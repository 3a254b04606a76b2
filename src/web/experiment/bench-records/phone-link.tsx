import { useState } from 'react';
import { Refused } from '../../api/request.ts';
import { Button } from '../../ui/button.tsx';
import { linkTo } from '../../api/deeds.ts';
import { whenText } from '../../ui/when.ts';

interface Link {
  readonly address: string;
  readonly until: string;
  /** The squares of the code as one path, and how many there are to a side. */
  readonly code: { readonly path: string; readonly side: number };
}

/** A link that opens this record on a phone, as words and as a code to point the camera at. */
export function PhoneLink({ run, bench }: { readonly run: string; readonly bench: string }) {
  const [link, setLink] = useState<Link>();
  const [said, setSaid] = useState('');
  const make = async () => {
    setSaid('Making a link …');
    try {
      const [{ path, expiresAt }, { codeOf }] = await Promise.all([
        linkTo(run),
        import('./code.ts'),
      ]);
      const address = new URL(path, window.location.href).href;
      setLink({ address, until: expiresAt, code: codeOf(address) });
      setSaid('');
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      setSaid(`${error.refusal.message} ${error.refusal.hint ?? ''}`);
    }
  };
  if (link === undefined)
    return (
      <>
        <Button rank="plain" onClick={() => void make()}>
          Open on a phone<span className="spoken">: {bench}</span>
        </Button>
        <span role="status" className="experiment-wrong">
          {said}
        </span>
      </>
    );
  const { side, path } = link.code;
  const local = /^(localhost|127\.|\[::1\])/.test(new URL(link.address).host);
  return (
    <div className="experiment-phone">
      <svg
        className="experiment-code"
        viewBox={`-2 -2 ${side + 4} ${side + 4}`}
        role="img"
        aria-label={`Code of the link for ${bench}`}
      >
        <rect x="-2" y="-2" width={side + 4} height={side + 4} fill="#fff" />
        <path d={path} fill="#000" />
      </svg>
      <p>
        Point the phone’s camera at the code. The link works once, until {whenText(link.until)}, and
        opens this record and nothing else.
        {local &&
          ' This address is of this computer alone; a phone needs Weighboat to be started for the network.'}
        <br />
        <a href={link.address}>{link.address}</a>
      </p>
    </div>
  );
}
