/** Style sheets are bundled into the script as text. */
declare module '*.css' {
  const text: string;
  export default text;
}
