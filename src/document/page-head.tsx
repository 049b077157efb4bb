/**
 * The head of a standalone page: nothing is loaded from elsewhere, images are embedded, and no
 * script runs.
 */
interface Props {
  readonly title: string;
  readonly style: string;
}

export function PageHead({ title, style }: Props) {
  return (
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta
        http-equiv="Content-Security-Policy"
        content="default-src 'none'; style-src 'unsafe-inline'; img-src data:"
      />
      <title>{title}</title>
      <style>{style}</style>
    </head>
  );
}
